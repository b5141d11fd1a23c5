"""The kept basis: read back as it was, under its very key only."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from polestead.morning.kept import keep, kept_path, key_of, read_kept


def test_it_is_read_back_as_it_was(spruce, tmp_path) -> None:
    path = tmp_path / "spruce.morning"
    assert keep(path, "key", spruce)
    found = read_kept(path, "key")
    assert found is not None
    for field in fields(spruce):
        ours, theirs = getattr(spruce, field.name), getattr(found, field.name)
        if field.name == "plan":
            for one, two in zip(ours, theirs, strict=True):
                for a, b in zip(one if isinstance(one, tuple) else [one], two if isinstance(two, tuple) else [two], strict=True):  # fmt: skip
                    np.testing.assert_array_equal(
                        np.array(a, dtype=float), np.array(b, dtype=float)
                    )
        elif field.name == "climate":
            assert ours.gust_of_m_s(10.0) == theirs.gust_of_m_s(10.0)
        elif isinstance(ours, np.ndarray):
            np.testing.assert_array_equal(ours, theirs)
        else:
            assert ours == theirs
    assert not list(tmp_path.glob(".*"))


def test_another_key_is_never_trusted(spruce, tmp_path) -> None:
    path = tmp_path / "spruce.morning"
    keep(path, "key", spruce)
    assert read_kept(path, "other") is None


@pytest.mark.parametrize("harm", ["short", "bit", "text", "gone", "empty"])
def test_a_kept_file_that_was_harmed_is_none(spruce, tmp_path, harm) -> None:
    path = tmp_path / "spruce.morning"
    keep(path, "key", spruce)
    raw = bytearray(path.read_bytes())
    if harm == "short":
        raw = raw[: len(raw) // 2]
    elif harm == "bit":
        raw[len(raw) // 2] ^= 0x10
    elif harm == "text":
        raw = bytearray(b"hello")
    elif harm == "empty":
        raw = bytearray()
    path.write_bytes(raw)
    if harm == "gone":
        path.unlink()
    assert read_kept(path, "key") is None


def test_a_place_that_may_not_be_written_is_told(spruce, tmp_path) -> None:
    (tmp_path / "file").write_text("")
    assert not keep(tmp_path / "file" / "spruce.morning", "key", spruce)


def test_the_key_hangs_on_the_text_and_on_the_weather_file_it_names(tmp_path) -> None:
    text = b'[climate]\nfile = "here.epw"\n'
    none = key_of(text, tmp_path)
    (tmp_path / "here.epw").write_text("one")
    one = key_of(text, tmp_path)
    (tmp_path / "here.epw").write_text("two")
    assert len({none, one, key_of(text, tmp_path), key_of(text + b"\n", tmp_path)}) == 4


def test_a_demo_is_kept_in_the_users_own_cache(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert kept_path(tmp_path / "x" / "demo.toml", writable_beside=False) == tmp_path / "polestead" / "demo.morning"  # fmt: skip
