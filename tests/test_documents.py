"""What README and DEVELOPERS say is true: their examples are run."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from wallwright.operations.table import BY_NAME

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, re.S)


def command_lines() -> list[str]:
    return [line for block in blocks("sh") for line in block.splitlines()]


def wallwright(*arguments: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "wallwright.command", *arguments],
        input=given,
        capture_output=True,
        timeout=60,
        check=False,
    )


def test_readme_has_the_two_commands():
    serve = [line for line in command_lines() if "wallwright serve" in line]
    tests = [line for line in command_lines() if "-m pytest" in line]
    assert len(serve) == 1
    assert len(tests) == 1
    assert serve[0].startswith("python3 -m venv .venv && ")
    assert tests[0].startswith("python3 -m venv .venv && ")


def test_the_request_in_the_readme_is_answered_and_drawn(tmp_path):
    (body,) = blocks("json")
    file = tmp_path / "wall.json"
    file.write_text(body, encoding="utf-8")
    answer = wallwright("post", "layout", str(file))
    assert answer.returncode == 0, answer.stderr
    assert json.loads(answer.stdout)["wall"]["length"] == 144
    drawing = wallwright("post", "layout", str(file), "--as", "svg")
    assert drawing.stdout.startswith(b"<?xml") or drawing.stdout.startswith(b"<svg")


def test_the_plan_in_the_readme_is_drawn():
    example = wallwright("example", "building")
    plan = wallwright("post", "building", "-", "--as", "svg", given=example.stdout)
    assert plan.returncode == 0, plan.stderr
    assert b"Plan of pump house" in plan.stdout


def test_every_place_that_developers_names_exists():
    for place in re.findall(r"^\| `([^`]+/)`", DEVELOPERS, re.M):
        assert (ROOT / place).is_dir(), place
    for script in re.findall(r"tests/[a-z_/]+\.py", DEVELOPERS):
        assert (ROOT / script).is_file(), script


@pytest.mark.parametrize("option", ["serve", "openapi", "example", "post", "health"])
def test_the_command_knows_each_subcommand(option):
    assert wallwright(option, "--help").returncode == 0


def test_the_command_names_every_operation_that_it_posts_to():
    said = " ".join(wallwright("post", "--help").stdout.decode().split())
    names = list(BY_NAME)
    assert f"{', '.join(names[:-1])} or {names[-1]}" in said


def test_the_grammar_in_developers_is_the_one_that_is_read():
    import inspect

    from wallwright import lengths

    (grammar,) = re.findall(r"```abnf\n(.*?)```", DEVELOPERS, re.S)
    documented = {line.strip() for line in inspect.getdoc(lengths).splitlines()}
    assert {line.strip() for line in grammar.splitlines()} <= documented
