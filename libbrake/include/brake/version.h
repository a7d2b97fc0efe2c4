/** @file version.h
 * The versions of the library and of its answers. Nothing else in the sources states
 * them: the build reads them from here.
 */
#ifndef BRAKE_VERSION_H
#define BRAKE_VERSION_H

/** Version of this header, "major.minor.patch". The soname of the shared library is its major. */
#define BRAKE_VERSION "0.1.0"

/** Version of the form that answers have as JSON; reference/schema describes it. */
#define BRAKE_FORMAT_VERSION 1

#endif
