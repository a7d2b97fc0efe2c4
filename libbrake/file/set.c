/* SPDX-License-Identifier: MIT */
/* One line of a vehicle file, by hand. */
#include <string.h>

#include "brake/file.h"
#include "value.h"
#include "vehicle/letters.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

enum brake_status brake_file_set(struct brake_sheet *sheet, const char *setting,
                                 struct brake_error *error)
{
    static const struct brake_error none = {0};
    const struct brake_source source = {0, false, true};
    const char *equals = strchr(setting, '=');
    char path[160];
    char hint[BRAKE_HINT_BYTES];
    *error = none;
    if (equals == NULL || equals == setting || (size_t)(equals - setting) >= sizeof path)
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, "",
                                  "got '%.60s'; accepts path=value, such as "
                                  "front.tyre.rollout=\"2.70 m\"",
                                  setting);
    if (!brake_text_is_plain(setting))
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, "",
                                  "is not UTF-8 text, or holds a control character");
    const char *name = setting + strspn(setting, " \t");
    brake_text_format(path, sizeof path, "%.*s", (int)(equals - name), name);
    path[strcspn(path, " \t")] = '\0';
    const char *rest = name + strlen(path);
    if (rest + strspn(rest, " \t") != equals)
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, path,
                                  "has '%.*s' between path and =", (int)(equals - rest), rest);
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    if (index >= 0)
        return brake_value_read(sheet, index, equals + 1, source, error);
    brake_catalogue_hint(&sheet->vehicle, path, hint, sizeof hint);
    return brake_value_refuse(error, BRAKE_E_UNKNOWN, 0, path, "unknown path%s", hint);
}
