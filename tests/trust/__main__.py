# SPDX-License-Identifier: MIT
"""Takes over what targets have measured since, and writes reference/trust.md: make trust."""
from trust import page, record


def main():
    """Keeps each record of the build folder beside those of targets that were not run here."""
    for path in sorted(record.MADE.glob("*.json")):
        kept = page.FOLDER / path.name
        record.write(kept, record.added(record.read(kept), record.read(path)))
        print(f"trust {path.stem}")
    page.PAGE.write_text(page.text(), encoding="utf-8")


if __name__ == "__main__":
    main()
