"""A style's variables put in, once for all elements of a page.

WeasyPrint reads a value with a variable anew for each element that has it.
"""

import re
from collections.abc import Sequence

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_SCREEN = re.compile(r"@media screen \{(?:[^{}]|\{(?:[^{}]|\{[^{}]*\})*\})*\}")
_ROOT = re.compile(r":root\s*\{([^{}]*)\}")
_SET = re.compile(r"(--[\w-]+)\s*:\s*([^;]+);")
_USED = re.compile(r"var\((--[\w-]+)\)")


def settled(styles: Sequence[str]) -> list[str]:
    """Return a page's styles for print, with variables put in that the whole page has alike.

    Where a variable is set in another way too, all are left to WeasyPrint.

    Examples
    --------
    >>> settled([":root { --ink: #000; --soft: var(--ink); }", "p { color: var(--soft); }"])
    ['', 'p { color: #000; }']
    >>> settled([":root { --ink: #000; }", "p { --ink: #fff; }"])
    [':root { --ink: #000; }', 'p { --ink: #fff; }']
    """
    printed = [_SCREEN.sub("", _COMMENT.sub("", style)) for style in styles]
    values = dict(_SET.findall(" ".join(f"{one};" for one in _ROOT.findall(" ".join(printed)))))
    plain = [_ROOT.sub("", style) for style in printed]
    for _ in range(len(values)):
        if not any(map(_USED.search, plain)):
            break
        plain = [_USED.sub(lambda used: values.get(used[1], used[0]), style) for style in plain]
    return printed if any("--" in style for style in plain) else plain
