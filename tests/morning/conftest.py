"""One basis a demo, worked once for all tests of the morning."""

from __future__ import annotations

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.basis import Basis, basis_of


@pytest.fixture(scope="session")
def spruce() -> Basis:
    return basis_of(read_homestead(demo_path("hollow-spruce")))


@pytest.fixture(scope="session")
def moss() -> Basis:
    return basis_of(read_homestead(demo_path("slieve-moss")))
