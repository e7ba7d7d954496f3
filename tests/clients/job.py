"""A full job through the typed client that openapi-python-client makes from the document.

openapi-python-client generate --path openapi/wallwright.json --config tests/clients/python.yaml --output-path made
PYTHONPATH=made python tests/clients/job.py http://127.0.0.1:8137
"""

import sys

from wallwright_client import Client
from wallwright_client.api.service import ready
from wallwright_client.api.walls import building, layout, layout_svg, sheathing
from wallwright_client.models import Building, BuildingAnswer, LayoutAnswer, Problem, SheathingAnswer, Wall

PUMP_HOUSE = {
    "units": "in",
    "name": "pump house",
    "footprint": {"width": "14'", "depth": "10'"},
    "wall_height": "7' 5\"",
    "walls": {"front": {"openings": [{"name": "door", "left": "5'", "width": "3' 2\"", "height": "6' 8\""}]}},
}


def main(url: str) -> None:
    with Client(base_url=url, raise_on_unexpected_status=True) as client:
        assert ready.sync_detailed(client=client).status_code == 200
        whole = building.sync(client=client, body=Building.from_dict(PUMP_HOUSE))
        assert isinstance(whole, BuildingAnswer), whole
        assert [wall.side for wall in whole.walls] == ["front", "right", "back", "left"]
        for built in whole.walls:
            # Each wall is a complete Wall that can be posted on as it is.
            framed = layout.sync(client=client, body=built.wall)
            assert isinstance(framed, LayoutAnswer), framed
            assert framed.members == built.layout.members
            assert sum(row.count for row in framed.cut_list) >= len(framed.members) > 10
            skinned = sheathing.sync(client=client, body=framed.wall)
            assert isinstance(skinned, SheathingAnswer), skinned
            assert skinned.pieces
        answer = layout.sync_detailed(client=client, body=whole.walls[0].wall)
        place, _, z = answer.headers["content-location"].partition(".json?z=")
        assert place == "/v1/layout"
        assert layout_svg.sync_detailed(client=client, z=z).content.startswith(b"<svg")
        refused = layout.sync(client=client, body=Wall.from_dict({"units": "in", "length": 2, "height": 96}))
        assert isinstance(refused, Problem)
        assert refused.status == 422
        assert refused.errors[0].pointer == "/length"
    print("python client: a building, four walls laid out and skinned, a drawing by link, a refusal: all typed")


if __name__ == "__main__":
    main(sys.argv[1])
