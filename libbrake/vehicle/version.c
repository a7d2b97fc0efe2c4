/* SPDX-License-Identifier: MIT */
#include "brake/version.h"

const char *brake_version(void)
{
    return BRAKE_VERSION;
}
