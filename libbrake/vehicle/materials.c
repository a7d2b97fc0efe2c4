/* SPDX-License-Identifier: MIT */
/* The solids of reference/materials.json, where the source of each stands; a test holds both
 * equal. */
#include "brake/rig.h"
#include "materials.h"

#include <stddef.h>
#include <string.h>

#define C(temperature) (273.15 + (temperature))

/* clang-format off */
static const struct brake_substance substances[] = {
    {"grey iron 250",
     {7, 7200.0,
      {C(20.0), C(100.0), C(200.0), C(300.0), C(400.0), C(500.0), C(600.0)},
      {49.3, 48.5, 47.5, 46.5, 45.0, 44.5, 44.0},
      {426.0, 456.0, 494.0, 531.0, 569.0, 606.0, 644.0}},
     1.1e11, 0.26, 1.17e-05, 250e6},
    {"grey iron 200",
     {7, 7150.0,
      {C(20.0), C(100.0), C(200.0), C(300.0), C(400.0), C(500.0), C(600.0)},
      {50.8, 50.0, 49.0, 48.0, 47.0, 46.0, 45.0},
      {426.0, 456.0, 494.0, 531.0, 569.0, 606.0, 644.0}},
     1.0e11, 0.26, 1.17e-05, 200e6},
    {"grey iron 150",
     {1, 7200.0,
      {C(20.0)},
      {46.0},
      {450.0}},
     9.7e10, 0.26, 1.05e-05, 140e6},
    {"carbon steel",
     {7, 7850.0,
      {C(20.0), C(100.0), C(200.0), C(300.0), C(400.0), C(500.0), C(600.0)},
      {53.33, 50.67, 47.34, 44.01, 40.68, 37.35, 34.02},
      {439.8, 487.6, 529.8, 564.7, 605.9, 666.5, 759.9}},
     2.1e11, 0.3, 1.2e-05, 360e6},
    {"organic pad",
     {1, 2600.0,
      {C(20.0)},
      {1.5},
      {1000.0}},
     0.0, 0.0, 0.0, 0.0},
    {"metallic pad",
     {1, 2500.0,
      {C(20.0)},
      {12.0},
      {900.0}},
     0.0, 0.0, 0.0, 0.0},
};
/* clang-format on */

enum { SUBSTANCES = sizeof substances / sizeof substances[0] };

const struct brake_substance *brake_substance_at(int index)
{
    return index >= 0 && index < SUBSTANCES ? &substances[index] : NULL;
}

const struct brake_substance *brake_substance_find(const char *name)
{
    for (int i = 0; i < SUBSTANCES; i++) {
        if (strcmp(substances[i].name, name) == 0)
            return &substances[i];
    }
    return NULL;
}
