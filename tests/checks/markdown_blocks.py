"""Fenced blocks of Markdown files, each with its info string and its place."""

import re
from dataclasses import dataclass

FENCE = re.compile(r"^(`{3,}|~{3,})\s*(.*?)\s*$")


@dataclass(frozen=True)
class Block:
    """The words behind the opening fence, the lines between, where the fence stands."""

    info: tuple[str, ...]
    text: str
    line: int


def blocks(markdown):
    """Every fenced block in order. A fence that is never closed is an error."""
    found = []
    fence, info, start, lines = None, (), 0, []
    for number, line in enumerate(markdown.splitlines(), start=1):
        match = FENCE.match(line)
        if fence is None:
            if match:
                fence, info = match.group(1), tuple(match.group(2).split())
                start, lines = number, []
        elif match and match.group(1).startswith(fence) and not match.group(2):
            found.append(Block(info, "".join(f"{text}\n" for text in lines), start))
            fence = None
        else:
            lines.append(line)
    if fence is not None:
        raise ValueError(f"line {start}: a fence that is never closed")
    return found


def without_blocks(markdown):
    """The same lines with those of fenced blocks left empty."""
    lines = markdown.splitlines()
    for block in blocks(markdown):
        end = block.line + block.text.count("\n") + 1
        lines[block.line - 1 : end] = [""] * (end - block.line + 1)
    return "\n".join(lines) + "\n"


def code_spans(markdown):
    """What stands between single backticks, outside of fenced blocks."""
    return re.findall(r"`([^`\n]+)`", without_blocks(markdown))
