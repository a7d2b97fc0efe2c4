# SPDX-License-Identifier: MIT
"""Writes examples/heron-drive.csv: an invented drive of the invented Heron, the same in every run.

Deceleration over pedal force is the straight line of `check` for Heron empty, and what the air adds
at the mean square of the speed between 0.8 and 0.1 of the initial one; of both 3 % less."""
from command import drives

FORCES = (150, 180, 210, 160, 190, 220)  # N
SPEEDS = (80.4, 79.2, 81.1, 50.6, 49.5, 50.2)  # km/h
HEAD = (
    "# Invented: no vehicle was driven. Made by tests/command/heron_drive.py for the Heron of\n"
    "# heron.ini, driver aboard, six stops on the level, speed by satellite ten times a second.\n"
    "time [s],speed [km/h],pedal_force [N]"
)


def predicted(force, speed):
    """[m/s2] 1.225 kg/m3, 1.25 m2 and 2138 kg of heron.ini; speed in m/s."""
    return 0.478 + 0.02456 * force + 0.5 * 1.225 * 1.25 * 0.325 * speed**2 / 2138


def log():
    """The text of the log."""
    stops = [
        drives.Stop(speed / 3.6, 0.97 * predicted(force, speed / 3.6), force=force)
        for speed, force in zip(SPEEDS, FORCES)
    ]
    return drives.text(drives.rows(stops, 10, noise=0.03, seed=80), head=HEAD)


if __name__ == "__main__":
    print(log(), end="")
