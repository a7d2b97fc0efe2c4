#include "paragraph.h"

#include <string.h>
#include "vehicle/text.h"

enum { COLUMNS = 80 };

void brake_paragraph(FILE *stream, const char *head, const char *text)
{
    const int indent = (int)strlen(head);
    int column = indent;
    fputs(head, stream);
    while (*text != '\0') {
        const int length = (int)strcspn(text, " ");
        if (column > indent && column + 1 + length > COLUMNS) {
            brake_text_print(stream, "\n%*s", indent, "");
            column = indent;
        } else if (column > indent) {
            fputc(' ', stream);
            column++;
        }
        brake_text_print(stream, "%.*s", length, text);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', stream);
}
