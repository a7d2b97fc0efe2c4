# SPDX-License-Identifier: MIT
"""The code keeps its own rules, and the measurements see it when it does not."""
import os
import pathlib
import subprocess

import pytest

from lint import (
    functions, headers, layers, licences,
    lines, locales, needed, objects, source, versions, words,
)  # fmt: skip

BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", source.ROOT / "build"))

DOCUMENTED = """
/** Work of a force.
 * @param force  [N] along
 *               the way
 * @param way    [m]
 * @return       [J]
 * @source       mechanics
 */
double brake_work(double force, double way);
"""


@pytest.mark.parametrize(
    "measured",
    [headers, layers, functions, licences, lines, locales, needed, words],
    ids=lambda m: m.__name__,
)
def test_sources(measured):
    found = list(measured.findings())
    assert not found, "\n".join(found)


@pytest.mark.parametrize("measured", [objects, versions], ids=lambda m: m.__name__)
def test_build(measured):
    found = list(measured.findings(BUILD))
    assert not found, "\n".join(found)


def test_a_source_without_its_licence_is_found(tmp_path, monkeypatch):
    """Given a file with the line, one without, and one that names its interpreter first."""
    monkeypatch.setattr(source, "ROOT", tmp_path)
    (tmp_path / "Makefile").write_text("# SPDX-License-Identifier: MIT\nall:\n")
    (tmp_path / "tests").mkdir()
    (tmp_path / "tests" / "a.c").write_text("/* SPDX-License-Identifier: MIT */\nint a;\n")
    (tmp_path / "tests" / "b.c").write_text("int b;\n")
    (tmp_path / "tests" / "run").write_text("#!/bin/sh\necho\n")
    found = [finding.partition(":")[0] for finding in licences.findings()]
    assert found == ["tests/b.c", "tests/run"]
    licences.main()
    assert list(licences.findings()) == []
    assert (tmp_path / "tests" / "run").read_text().splitlines()[0] == "#!/bin/sh"


def test_there_is_something_to_measure():
    assert len(headers.declared()) > 50
    assert functions.sizes()[2] > 50


def lacks(text):
    return [finding.partition(": ")[2] for finding in headers.function_findings(text, "x.h", True)]


def test_documented_function_passes():
    assert lacks(DOCUMENTED) == []


@pytest.mark.parametrize(
    "before, after, first",
    [
        ("[N] ", "", "brake_work @param force: no [unit] first"),
        ("[J]", "the work", "brake_work @return: no [unit] first"),
        ("@source ", "source", "brake_work no @source"),
        (" * @param way    [m]\n", "", "brake_work documents (force), takes (force, way)"),
        ("*/\n", "*/\nint other;\n", "brake_work has no doc block right before it"),
        ("/** Work", "/* Work", "brake_work has no doc block right before it"),
    ],
)
def test_undocumented_function_is_found(before, after, first):
    assert lacks(DOCUMENTED.replace(before, after, 1))[0] == first


def test_missing_return_is_found():
    assert "brake_work no @return" in lacks(DOCUMENTED.replace("@return ", "gives "))


def test_functions_are_found_among_other_declarations():
    text = """
#ifdef __cplusplus
extern "C" {
#endif
enum brake_end { BRAKE_LOW, BRAKE_HIGH };
struct brake_pair { double a; /**< [m] */ };
struct brake_pair brake_pair_of(const double *values, unsigned count,
                                double (*weigh)(double, void *), void *of);
static inline int brake_one(void) { return 1; }
#ifdef __cplusplus
}
#endif
"""
    assert [found[1:] for found in headers.functions(text)] == [
        (
            "brake_pair_of",
            "struct brake_pair",
            [
                "const double *values",
                "unsigned count",
                "double (*weigh)(double, void *)",
                "void *of",
            ],
        ),
        ("brake_one", "static inline int", []),
    ]


def test_field_without_unit_is_found():
    text = """
struct brake_pair {
    double mass; /**< [kg] */
    double way;  /**< along the road */
    double width, height;
    int count;
    double (*weigh)(double);
};
/* double talk; */
"""
    assert list(headers.field_findings(text, "x.h")) == [
        "x.h:4: double way: no /**< [unit] ... */",
        "x.h:5: double width, height: no /**< [unit] ... */",
    ]


FOR_BOTH = """
#ifdef __cplusplus
extern "C" {
#endif

int brake_one(void);

#ifdef __cplusplus
}
#endif
"""


def test_a_function_that_no_cplusplus_program_links_with_is_found():
    assert list(headers.linkage_findings("struct brake_pair { int a; };\n", "x.h")) == []
    assert list(headers.linkage_findings(FOR_BOTH, "x.h")) == []
    assert list(headers.linkage_findings(FOR_BOTH + "int brake_two(void);\n", "x.h")) == [
        'x.h:11: brake_two: not within extern "C", so no C++ program links with it'
    ]
    for lost in 'extern "C" {\n', "\n}\n":
        (found,) = headers.linkage_findings(FOR_BOTH.replace(lost, "\n"), "x.h")
        assert "brake_one: not within" in found


@pytest.mark.parametrize(
    "file, include, finding",
    [
        ("model/new.c", "brake/tyre.h", None),
        ("file/new.c", "brake/tyre.h", None),
        ("command/new.c", "brake/units.h", None),
        ("model/new.c", "brake/version.h", None),
        ("model/new.c", "brake/units.h", "of the later layer vehicle"),
        ("include/brake/tyre.h", "brake/units.h", "of the later layer vehicle"),
        ("model/new.c", "brake/nowhere.h", "which is not there"),
    ],
)
def test_layers(file, include, finding):
    path = source.LIBRARY / file
    found = list(layers.findings_in(path, f'#include <math.h>\n#include "{include}"\n'))
    assert len(found) == (finding is not None)
    assert finding is None or found[0].endswith(finding)


def test_header_outside_the_table_is_found():
    assert list(layers.findings_in(source.INCLUDE / "new.h", ""))


def test_long_function_is_found():
    text = "int f(void)\n{\n" + "    ;\n" * 57 + "}\n"
    assert list(functions.findings_in(text, "x.c")) == []
    longer = text.replace(";", "/* and */ ;\n", 1)
    assert list(functions.findings_in(longer, "x.c")) == ["x.c:1: f has 61 lines, more than 60"]


def test_a_wide_line_is_found_but_in_a_table_laid_out_by_hand():
    wide = "x" * 101 + "\n"
    table = f"/* clang-format off */\n{wide}/* clang-format on */\n"
    assert list(lines.findings_in("x.c", "x" * 100 + "\n")) == []
    assert list(lines.findings_in("x.c", table + wide)) == ["x.c:4: 101 columns; at most 100"]
    assert list(lines.findings_in("x.py", f"# fmt: off\n{wide}# fmt: on\n")) == []


def test_long_argument_list_is_found():
    text = "static void f(int a, int b, int c, int d, int e, int f, int (*g)(int, int))\n{\n}\n"
    assert list(functions.findings_in(text, "x.c")) == [
        "x.c:1: f takes 7 arguments, more than 6"
    ]


def test_code_lines_leave_out_comments():
    text = (
        '#define X {\n/* one */\nint f(int a)\n{\n    /* two\n     * three */\n\n    g("}");\n}\n'
    )
    assert list(functions.defined(text)) == [("f", 3, 7, 4, 1)]


@pytest.mark.parametrize(
    "name",
    "printf fprintf sprintf snprintf dprintf asprintf vprintf vfprintf vsnprintf vasprintf swprintf"
    " scanf sscanf fscanf vsscanf strtod strtof strtold wcstod atof strfromd"
    " setlocale newlocale uselocale localeconv".split(),
)
def test_a_number_that_would_follow_the_locale_is_found(name):
    path = source.LIBRARY / "answer" / "new.c"
    text = f'/* {name}(x) */\nvoid f(void)\n{{\n    {name}("{name}");\n}}\n'
    (found,) = locales.findings_in(path, text)
    assert found.startswith(f"libbrake/answer/new.c:4: {name} follows the locale")
    # By another name as well.
    assert list(locales.findings_in(path, f"int (*say)(const char *, ...) = {name};\n"))
    assert list(locales.findings_in(locales.ALLOWED, text)) == []


def test_what_only_sounds_like_it_passes():
    text = '__attribute__((format(printf, 1, 2))) void say(const char *format, ...);\n'
    text += 'brake_text_printf("a"); my_strtod("1"); strtol("1", NULL, 10); /* atof("1") */\n'
    assert list(locales.findings_in(source.LIBRARY / "file" / "new.c", text)) == []


@pytest.mark.parametrize(
    "text, finding",
    [
        ("static const char *const names[] = {0}; const void *f(void) { return names; }", None),
        ('static const char *const names[] = {"a"}; const void *f(void) { return names; }', None),
        ("int count = 1;", "count can be written to (.data)"),
        ("int f(void) { static int count; return ++count; }", "(.bss)"),
        ("void *f(void) { return __builtin_malloc(1); }", "calls malloc"),
        ("#include <errno.h>\nvoid f(void) { errno = 0; }", "calls __errno_location"),
    ],
)
def test_objects(tmp_path, text, finding):
    (tmp_path / "x.c").write_text(text)
    compiled = tmp_path / "x.o"
    command = ["cc", "-O1", "-fPIC", "-c", "-o", compiled, tmp_path / "x.c"]
    subprocess.run(command, check=True)
    found = list(objects.object_findings(compiled))
    assert len(found) == (finding is not None)
    assert finding is None or found[0].endswith(finding)


def test_a_public_function_that_no_program_needs_is_found():
    found = list(needed.findings_in(DOCUMENTED, "x.h", "brake_other();"))
    assert [finding.partition(": ")[2] for finding in found] == [
        "brake_work: no program needs it; declare it beside its source"
    ]
    assert not list(needed.findings_in(DOCUMENTED, "x.h", "return brake_work(1, 2);"))


RETIRED = """# Glossary

| here | standard |
|---|---|
| sheet | input set |

## Retired words

| retired | use |
|---|---|
| doubt | uncertainty |
| verge of lock | incipient lock |
"""


def test_the_glossary_is_the_list_of_retired_words():
    assert words.retired(RETIRED) == {"doubt": "uncertainty", "verge of lock": "incipient lock"}
    assert len(words.retired(words.GLOSSARY.read_text())) > 5


@pytest.mark.parametrize(
    "text",
    [
        "struct brake_doubt *of;",
        "enum { BRAKE_DOUBT_MOST };",
        'say("Doubts are told.");',
        "/* what is in doubt */",
        "/* brakes at the verge\n * of lock */",
    ],
)
def test_a_retired_word_is_found(text):
    (found,) = words.findings_in("x.c", "\n" + text, words.retired(RETIRED))
    assert found.startswith("x.c:2: '") and "' is retired; say " in found


def test_other_words_pass():
    """Words that only begin or end like one, and those of the glossary that are in use."""
    text = "undoubted redoubt doubtless sheet; the verge of the road"
    assert not list(words.findings_in("x.c", text, words.retired(RETIRED)))
