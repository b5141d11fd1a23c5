"""One basis a demo, worked once for all tests of the morning."""

from __future__ import annotations

from functools import cache

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.basis import Basis, basis_of
from tests.answers import once_a_run


@cache
@once_a_run
def worked_basis(demo: str) -> Basis:
    return basis_of(read_homestead(demo_path(demo)))


@pytest.fixture(scope="session")
def spruce() -> Basis:
    return worked_basis("hollow-spruce")


@pytest.fixture(scope="session")
def moss() -> Basis:
    return worked_basis("slieve-moss")
