/* SPDX-License-Identifier: MIT */
/** @file version.h
 * The versions of the library and of its answers. Nothing else in the sources states
 * them: the build reads them from here.
 */
#ifndef BRAKE_VERSION_H
#define BRAKE_VERSION_H

#ifdef __cplusplus
extern "C" {
#endif

/** Version of this header, "major.minor.patch". The soname of the shared library is major.minor:
 * before 1.0 each minor version may change what a program was compiled with. */
#define BRAKE_VERSION "0.1.0"

/** Version of the library that runs.
 * @return  "major.minor.patch"; that of the header when both are of one build
 */
const char *brake_version(void);

/** Version of the form that answers have as JSON; reference/schema describes it. */
#define BRAKE_FORMAT_VERSION 1

#ifdef __cplusplus
}
#endif

#endif
