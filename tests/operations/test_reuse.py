"""Offcuts reused inside a wall, asked as a caller asks: fewer sheets, the same wall, the bound told."""

import json

from tests.api.client import post

BOAT_STORE = {
    "units": "in", "name": "boat store, front", "length": "26'", "height": "8' 1\"",
    "openings": [
        {"name": "boats", "left": "2'", "width": "8'", "height": "6' 10\""},
        {"name": "trailer", "left": "14'", "width": "8'", "height": "6' 10\""},
    ],
}  # fmt: skip


def asked(**sheathing: object) -> dict:
    return post("/v1/sheathing", json.dumps({**BOAT_STORE, "sheathing": sheathing}).encode()).json()


def codes(answer: dict) -> list[str]:
    return [finding["code"] for finding in answer["findings"]]


def test_the_strip_over_a_door_comes_from_another_sheets_offcut():
    # Between and beside the doors stand 2, 4 and 4 ft of whole height; over each door lies a strip of 15 in by 8 ft in parts.
    plain, reused = asked(), asked(reuse_offcuts=True)
    assert len(plain["sheets"]) == 8
    assert len(reused["sheets"]) == 6
    assert (reused["least_sheets"], reused["proven"]) == (6, True)
    assert "least_sheets" not in plain
    assert "reuse-proven" in codes(reused)
    for part in ("outline", "cut_outs", "stage"):
        assert [piece[part] for piece in plain["pieces"]] == [piece[part] for piece in reused["pieces"]]
    assert plain["seams"] == reused["seams"]


def test_every_piece_is_named_by_its_sheet_and_only_free_grain_says_which_are_turned():
    kept, free = (asked(reuse_offcuts=True, direction="lying", grain=grain) for grain in ("kept", "free"))
    for answer in (kept, free):
        named = {piece["id"]: piece["sheet"] for piece in answer["pieces"]}
        assert {piece: sheet["id"] for sheet in answer["sheets"] for piece in sheet["pieces"]} == named
    assert not any("turned" in piece for piece in kept["pieces"])
    assert all("turned" in piece for piece in free["pieces"])
    assert ("pieces-turned" in codes(free)) == any(piece["turned"] for piece in free["pieces"])


def test_the_wall_answered_holds_what_was_asked_for():
    answer = asked(reuse_offcuts=True, grain="free")
    again = post("/v1/sheathing", json.dumps(answer["wall"]).encode()).json()
    assert again == answer
    assert asked()["wall"]["sheathing"]["reuse_offcuts"] is False
