# SPDX-License-Identifier: MIT
"""Programs of others, in C and in C++, compile and link with what is built."""
import math

import pytest

from install.built import BUILD, C, CPLUSPLUS, PRIVATE, ROOT, run

INCLUDE = ROOT / "libbrake" / "include"
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Werror", f"-I{INCLUDE}"]
LANGUAGES = [f"{C} -std=c99", f"{C} -std=c11", f"{CPLUSPLUS} -std=c++11", f"{CPLUSPLUS} -std=c++17"]

PROGRAM = """
#include <stdio.h>

#include "brake/brake.h"

int main(void)
{
    static struct brake_sheet sheet;
    struct brake_error error;
    if (brake_file_read(stdin, &sheet, &error) || brake_sheet_complete(&sheet, &error)) {
        puts(error.text);
        return 1;
    }
    printf("%s %.17g\\n", sheet.vehicle.general.name, brake_piston_area(2, 0.048));
    return 0;
}
"""


def suffix(compiler):
    return ".cpp" if "++" in compiler else ".c"


@pytest.mark.parametrize("compiler", LANGUAGES)
def test_each_header_stands_alone(compiler, tmp_path):
    headers = sorted((INCLUDE / "brake").glob("*.h"))
    assert len(headers) > 40
    for header in headers:
        text = f'#include "brake/{header.name}"\nint main(void)\n{{\n    return 0;\n}}\n'
        (tmp_path / header.stem).with_suffix(suffix(compiler)).write_text(text)
    run(*compiler.split(), *STRICT, "-fsyntax-only", *tmp_path.iterdir())


@pytest.mark.parametrize("library", ["libbrake.a", "libbrake.so"])
@pytest.mark.parametrize("compiler", LANGUAGES)
def test_a_program_links(compiler, library, tmp_path):
    source = (tmp_path / "example").with_suffix(suffix(compiler))
    source.write_text(PROGRAM)
    more = PRIVATE.split() if library.endswith(".a") else [f"-Wl,-rpath,{BUILD}"]
    run(*compiler.split(), *STRICT, "-o", tmp_path / "example", source, BUILD / library, *more)
    said = run(tmp_path / "example", stdin=open(ROOT / "examples" / "heron.ini"))
    name, _, area = said.strip().rpartition(" ")
    assert name == "Heron (invented), after refit"
    # Geometry: two circles of 48 mm.
    assert float(area) == pytest.approx(2 * math.pi / 4 * 0.048**2, rel=1e-15)
