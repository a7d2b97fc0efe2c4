#include <string.h>

#include "command.h"

int command_take_rules(const char *word, unsigned *rules)
{
    static const struct {
        const char *word;
        unsigned rules;
    } known[] = {{"us", BRAKE_RULES_US},
                 {"un", BRAKE_RULES_UN},
                 {"eu", BRAKE_RULES_EU},
                 {"all", BRAKE_RULES_ALL}};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strcmp(word, known[i].word) == 0) {
            *rules = known[i].rules;
            return 0;
        }
    }
    return command_misused("--rules '%s'; accepts us, un, eu, all", word);
}

int command_take_load(const char *word, enum brake_load *load)
{
    for (int i = 0; i < BRAKE_LOADS; i++) {
        if (strcmp(word, brake_load_word((enum brake_load)i)) == 0) {
            *load = (enum brake_load)i;
            return 0;
        }
    }
    return command_misused("--load '%s'; accepts empty, full", word);
}
