# SPDX-License-Identifier: MIT
"""The page of what was measured is the one that `make trust` writes; nothing in it is left open."""
import re

import pytest

from trust import page, record

RECORDS = page.records()


def test_the_page_is_what_make_trust_writes():
    assert page.PAGE.read_text(encoding="utf-8") == page.text(), "make trust writes it anew"


@pytest.mark.parametrize("name", RECORDS)
def test_a_record_says_what_it_rests_on_and_what_it_leaves_open(name):
    told = RECORDS[name]
    assert set(told) == {"title", "rests_on", "not_covered", "figures"}
    assert all(told.values())
    for row in told["figures"].values():
        assert row["figure"]
        assert re.fullmatch(r"\d+\.\d+\.\d+ [0-9a-f]{7,}\+?", row["version"])
        assert re.fullmatch(r"\d{4}-\d\d-\d\d", row["date"])


def test_a_figure_takes_the_place_of_the_one_before_it(tmp_path, monkeypatch):
    """Given two runs, the second of which measured one of two things anew."""
    monkeypatch.setattr(record, "MADE", tmp_path)
    record.record("weigh", "Weighed", {"a": "1", "b": "2"}, "a scale", "the rest")
    record.record("weigh", "Weighed", {"b": "3"}, "a scale", "the rest")
    told = record.read(tmp_path / "weigh.json")["figures"]
    assert {label: row["figure"] for label, row in told.items()} == {"a": "1", "b": "3"}
    assert "| b | 3 | " in page.section("weigh", record.read(tmp_path / "weigh.json"))
