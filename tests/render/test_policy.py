"""Pages carry a content security policy, keep it, and run nothing but their own script."""

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

KINDS = ["index", "ZZ-WTR/index", "conversions/index", "formulas", "glossary", "keys"]
KINDS += ["next/ZZ-WTR/ZZ-PHN/index", "ZZ-WTR/how-it-works", "next/index"]
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
BAD = """
<script>window.owned = "script"</script>
<script src="data:text/javascript,window.owned='data'"></script>
<img src="x" onerror="window.owned = 'handler'">
<svg onload="window.owned = 'drawing'"></svg>
<p id="painted" style="color: rgb(1, 2, 3)">a</p><style>#painted { color: rgb(1, 2, 3) }</style>
<a id="go" href="javascript:void(window.owned = 'address')">b</a>
<iframe srcdoc="&lt;script&gt;parent.owned = 'frame'&lt;/script&gt;"></iframe>
<object data="data:text/html,a"></object>
<base href="http://x.invalid/">
"""


@pytest.fixture
def told(context: BrowserContext) -> tuple[Page, list[str]]:
    """A page, and what the browser's console is told of it."""
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    return page, said


def test_the_policy_stands_before_whatever_it_rules(pages):
    for name in KINDS:
        html = (pages / f"{name}.html").read_text("utf-8")
        (found,) = POLICY.finditer(html)
        assert found.start() < min(html.index("<script"), html.index("<link"))
        assert {"default-src 'none'", "script-src 'self'", "style-src 'self'"} <= set(
            found[1].split("; ")
        )
        assert "unsafe" not in found[1]


def test_no_page_breaks_its_own_policy(pages, told):
    """From the file system, where a page's origin is its own; its script and style are at work."""
    page, said = told
    for name in KINDS:
        page.goto((pages / f"{name}.html").as_uri())
        assert "system-ui" in page.evaluate("getComputedStyle(document.body).fontFamily")
        assert page.locator("details.theme").is_visible()
    page.goto((pages / "ZZ-WTR/index.html").as_uri())
    page.locator("details.theme summary").click()
    page.locator('input[name="theme"][value="night"]').check(force=True)
    page.locator('.units input[value="kt"]').check(force=True)
    page.locator("td[data-o]").first.click()
    assert page.locator("#origin").is_visible()
    assert said == []


def test_what_is_slipped_into_a_page_does_not_run(pages, told, tmp_path):
    shutil.copytree(pages / "assets", tmp_path / "assets")
    html = (pages / "glossary.html").read_text("utf-8").replace("<main", f"{BAD}<main", 1)
    page, said = told
    for policy in (True, False):
        path = Path(tmp_path / f"{policy}.html")
        path.write_text(html if policy else POLICY.sub("", html), "utf-8")
        page.goto(path.as_uri())
        page.evaluate("document.getElementById('go').click()")
        owned = page.evaluate("window.owned")
        colour = page.evaluate("getComputedStyle(document.getElementById('painted')).color")
        assert (owned is None) == policy
        assert (colour != "rgb(1, 2, 3)") == policy
        assert bool([one for one in said if "Content Security Policy" in one]) == policy
        said.clear()
