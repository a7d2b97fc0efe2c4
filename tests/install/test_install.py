# SPDX-License-Identifier: MIT
"""What `make install` puts in place, wherever that is, and what `make uninstall` leaves."""
import os
import shlex

from install.built import C, make, run


def files(folder):
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if not path.is_dir()}


def test_it_goes_where_the_name_has_blanks_and_away_again(tmp_path):
    stage = tmp_path / "stage 3"
    make("install", f"DESTDIR={stage}", "PREFIX=/opt/my brakes")
    there = files(stage / "opt" / "my brakes")
    assert files(tmp_path) == {f"stage 3/opt/my brakes/{name}" for name in there}
    assert {"bin/stopmargin", "lib/libbrake.a", "lib/libbrake.so", "lib/pkgconfig/libbrake.pc",
            "include/brake/brake.h", "share/doc/libbrake/LICENSE",
            "share/doc/libbrake/NOTICE", "share/doc/libbrake/schema/check.json",
            "share/man/man1/stopmargin.1",
            "share/bash-completion/completions/stopmargin"} <= there  # fmt: skip
    make("uninstall", f"DESTDIR={stage}", "PREFIX=/opt/my brakes")
    assert files(tmp_path) == set()


def test_folders_of_a_distribution_hold_what_pkg_config_says(tmp_path):
    stage, example = tmp_path / "stage 3", tmp_path / "example.c"
    places = ["PREFIX=/usr", "LIBDIR=/usr/lib/x86_64-linux-gnu", "INCLUDEDIR=/usr/include/brakes"]
    make("install", f"DESTDIR={stage}", *places)
    library = stage / "usr/lib/x86_64-linux-gnu"
    found = run("pkg-config", "--static", "--cflags", "--libs", "libbrake",
                env={**os.environ, "PKG_CONFIG_PATH": str(library / "pkgconfig")})  # fmt: skip
    example.write_text(
        '#include "brake/pedal.h"\nint main(void) { return !(brake_piston_area(1, 1) > 0.7); }\n'
    )
    run(C, "-o", tmp_path / "example", example, *shlex.split(found))
    run(tmp_path / "example", env={"LD_LIBRARY_PATH": str(library)})
    make("uninstall", f"DESTDIR={stage}", *places)
    assert files(stage) == set()


def test_cmake_finds_it_wherever_it_was_put(tmp_path):
    stage, project = tmp_path / "stage 3", tmp_path / "project"
    make("install", f"DESTDIR={stage}", "PREFIX=/opt/brakes")
    project.mkdir()
    (project / "main.c").write_text(
        '#include "brake/pedal.h"\nint main(void) { return !(brake_piston_area(1, 1) > 0.7); }\n'
    )
    (project / "CMakeLists.txt").write_text(
        "cmake_minimum_required(VERSION 3.13)\nproject(example C)\n"
        "find_package(libbrake 0.1 REQUIRED)\nadd_executable(example main.c)\n"
        "target_link_libraries(example libbrake::libbrake)\n"
    )
    built = tmp_path / "built"
    run("cmake", "-S", project, "-B", built, f"-DCMAKE_PREFIX_PATH={stage}/opt/brakes")
    run("cmake", "--build", built)
    run(built / "example")
