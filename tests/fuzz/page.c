/* SPDX-License-Identifier: MIT */
/* What the page hands to the library: the first byte says which function, texts follow, each ended
 * by NUL. What comes back is JSON or a page, or nothing. */
#include "fuzz.h"

#include <cjson/cJSON.h>

#include "../../bindings/web/face.h"

static void look(char *text)
{
    if (text != NULL && text[0] == '{') {
        cJSON *all = cJSON_Parse(text);
        MUST(cJSON_IsObject(all));
        cJSON_Delete(all);
    } else {
        MUST(text == NULL || text[0] == '<' || text[0] == '[' || text[0] == '\0');
    }
    face_free(text);
}

static void start(const char *texts, const char *country)
{
    const int length = (int)strlen(texts);
    char *made =
        face_start(length > 0 ? texts[0] : -1, length > 1 ? texts[1] : -1,
                   length > 2 ? texts[2] : -1, length > 3 ? texts + 3 : "", country, length % 2);
    face_free(made);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 2)
        return 0;
    char *first = text_of(data + 1, size - 1);
    const size_t length = strlen(first);
    const char *second = length < size - 1 ? first + length + 1 : "";
    switch (data[0] % 4) {
    case 0:
        look(face_check(first, second, FACE_COLD, NULL));
        break;
    case 1:
        look(face_drive(first, second));
        break;
    case 2:
        look(face_pedal(first));
        break;
    default:
        start(first, second);
    }
    free(first);
    return 0;
}
