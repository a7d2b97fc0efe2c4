/** @file version.h
 * The version of the library. Nothing else in the sources states it: the build reads it from here.
 */
#ifndef BRAKE_VERSION_H
#define BRAKE_VERSION_H

/** Version of this header, "major.minor.patch". The soname of the shared library is its major. */
#define BRAKE_VERSION "0.1.0"

#endif
