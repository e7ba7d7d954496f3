"""The application, called in process."""

import asyncio
from typing import Any

import httpx

from wallwright.api.app import create_app
from wallwright.api.settings import Settings

APP = create_app(Settings())
JSON = {"content-type": "application/json"}
WALL = {"units": "in", "length": 144, "height": 96}


def call(method: str, path: str, app: Any = APP, **options: Any) -> httpx.Response:
    """One request, answered by the application."""

    async def go() -> httpx.Response:
        transport = httpx.ASGITransport(app=app)
        async with httpx.AsyncClient(transport=transport, base_url="http://test") as client:
            return await client.request(method, path, **options)

    return asyncio.run(go())


def post(path: str, body: bytes, **headers: str) -> httpx.Response:
    """A body posted as JSON."""
    return call("POST", path, content=body, headers={**JSON, **headers})


def codes(answer: httpx.Response) -> set[tuple[str, str]]:
    """Pointer and code of every fault in a problem."""
    return {(error["pointer"], error["code"]) for error in answer.json().get("errors", [])}
