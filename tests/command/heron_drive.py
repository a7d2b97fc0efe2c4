"""Writes examples/heron-drive.csv: an invented drive of the invented Heron, the same in every run.

Deceleration over pedal force is the straight line of `check` for Heron empty, less 3 %."""
from command import drives

FORCES = (150, 180, 210, 160, 190, 220)  # N
SPEEDS = (80.4, 79.2, 81.1, 50.6, 49.5, 50.2)  # km/h
HEAD = (
    "# Invented: no vehicle was driven. Made by tests/command/heron_drive.py for the Heron of\n"
    "# heron.ini, driver aboard, six stops on the level, speed by satellite ten times a second.\n"
    "time [s],speed [km/h],pedal_force [N]"
)


def log():
    """The text of the log."""
    stops = [
        drives.Stop(speed / 3.6, 0.97 * (0.491 + 0.02525 * force), force=force)
        for speed, force in zip(SPEEDS, FORCES)
    ]
    return drives.text(drives.rows(stops, 10, noise=0.03, seed=80), head=HEAD)


if __name__ == "__main__":
    print(log(), end="")
