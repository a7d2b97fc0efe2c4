# SPDX-License-Identifier: MIT
"""A browser, a folder for its pages, and what is measured on them."""
import functools

import pytest

from browser import chromium


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("pages")


@pytest.fixture(scope="module")
def browser():
    running = chromium.Chromium()
    yield running
    running.close()


@pytest.fixture(scope="module")
def measure(browser):
    """Boxes on a page at a size of the window; each is measured once."""
    return functools.cache(browser.measure)


@pytest.fixture(scope="module")
def printed(browser, folder):
    """A page on paper; each size is printed once."""

    @functools.cache
    def of(page, paper):
        pdf = folder / f"{page.stem}-{paper}.pdf"
        browser.print_out(page, paper, pdf)
        return pdf

    return of
