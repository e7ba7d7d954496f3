"""The tags of the links that were answered last."""

from wallwright.api.tags import Tags


def test_a_tag_is_known_for_its_own_link_alone():
    tags = Tags()
    tags.keep("/v1/layout.json", b"z=a", '"1"', "application/json")
    assert tags.of("/v1/layout.json", b"z=a") == ('"1"', "application/json")
    for path, query in (("/v1/layout.svg", b"z=a"), ("/v1/layout.json", b"z=b"), ("/v1/layout.json", b"")):
        assert tags.of(path, query) is None


def test_those_asked_last_are_kept_and_no_more_than_so_many():
    tags = Tags()
    for number in range(1024):
        tags.keep("/x", b"%d" % number, str(number), "")
    assert tags.of("/x", b"0")
    tags.keep("/x", b"new", "new", "")
    assert tags.of("/x", b"1") is None
    assert all(tags.of("/x", query) for query in (b"0", b"2", b"1023", b"new"))
