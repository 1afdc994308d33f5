"""The workbook without a server: the site is built, and its first page runs in a real browser. By hand, not in .ci/run:

PASTRYLAB_PYODIDE names a folder of Pyodide's runtime; what .lite/README.md installs must be there too. Packages come from
the package index. Whether the lessons run as well depends on what lies in that folder: the page says which it is.
"""

import functools
import http.server
import importlib.util
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.deep, pytest.mark.slow]
SCRIPT = Path(__file__).resolve().parents[2] / ".lite" / "build_site.py"
MINUTE = 60_000


class _Files(http.server.SimpleHTTPRequestHandler):
    """Any web server that only hands out files."""

    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".mjs": "text/javascript",
        ".wasm": "application/wasm",
    }

    def log_message(self, *said):
        pass


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """(address of the site, what its making said)."""
    given = os.environ.get("PASTRYLAB_PYODIDE")
    if not given:
        pytest.skip("PASTRYLAB_PYODIDE names no folder of Pyodide: the workbook without a server was not tried")
    for name in ("jupyterlite_core", "jupyterlite_pyodide_kernel", "jupyter_server"):
        if importlib.util.find_spec(name) is None:
            pytest.skip(f"{name} is not installed: the workbook without a server was not tried")
    folder = tmp_path_factory.mktemp("lite") / "site"
    command = [sys.executable, SCRIPT, "--runtime", given, "--site", folder]
    made = subprocess.run(command, capture_output=True, text=True)
    assert made.returncode == 0, made.stdout + made.stderr
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Files, directory=folder)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}", made.stdout
        server.shutdown()


def opened(page, address, name="try-this-browser.ipynb"):
    """Open a page of the site and run all its cells; returns its outputs, once the last cell has one."""
    page.goto(f"{address}/notebooks/index.html?path={name}")
    page.locator(".jp-Cell").first.wait_for(timeout=MINUTE)
    page.locator(".lm-MenuBar-item", has_text="Run").click()
    page.locator('.lm-Menu-item:has-text("Run All Cells")').first.click()
    page.locator(".jp-CodeCell").last.locator(".jp-OutputArea-output").first.wait_for(timeout=3 * MINUTE)
    return page.locator(".jp-OutputArea-output")


def test_a_page_reads_draws_keeps_and_asks_nothing_outside(site, chromium):
    address, said = site
    context = chromium.new_context(viewport={"width": 390, "height": 1600})
    page, asked = context.new_page(), []
    context.on("request", lambda request: asked.append(request.url))
    outputs = opened(page, address)
    assert outputs.first.inner_text().strip() == "652.039 g"  # 453.592 + 7 × 28.3495, by hand
    # A tray at 4 in a room at 20, half way in 30 min: after an hour a quarter of 16 lacks. In 60 min: a half of it.
    assert "stands at 16.0 °C" in page.locator(".jp-CodeCell").nth(2).inner_text()
    drawn = page.locator("polyline").get_attribute("points")
    page.locator(".noUi-handle").focus()
    for _ in range(30):
        page.keyboard.press("ArrowRight")
    page.get_by_text("stands at 12.0 °C").wait_for(timeout=MINUTE)
    assert page.locator("polyline").get_attribute("points") != drawn
    answer = "Ganache <b>1,5</b> kg"
    page.locator(".widget-text input").fill(answer)
    page.locator(".widget-text input").press("Tab")
    page.get_by_role("button", name="Keep it").click()
    page.wait_for_timeout(3000)
    page.goto("about:blank")
    opened(page, address)
    assert page.locator(".widget-text input").input_value() == answer
    last, refused = (
        page.locator(".jp-CodeCell").last.inner_text(),
        "The lessons do not run here: No module named 'numpy'",
    )
    assert (refused in last) == ("numpy" in said)
    assert [url for url in asked if not url.startswith((address, "data:", "blob:", "about:"))] == []
    context.close()
