"""From a key pressed on a slider to the new picture painted, in JupyterLab in Chromium: our bench against interact."""

import contextlib
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

import nbformat

_TURNS, _WARMING = 28, 3
_BENCH = """from pastrylab import benches
benches.tempering.seed_bench()"""
# The same curve, bands, legend and labels, as someone would draw them who reaches for interact.
_INTERACT = """import matplotlib.pyplot as plt
import numpy as np
from ipywidgets import FloatSlider, interact

from pastrylab import tempering
from pastrylab.trade import chocolate

%matplotlib inline


@interact(melted_at=FloatSlider(value=45, min=40, max=55, step=0.5))
def draw(melted_at):
    batch = 2.0
    seed = tempering.seed_mass.floats(batch, melted_at, 20.0, 31.5, "dark", 0.9, 0.0)
    seeds = np.linspace(0, 0.6 * batch, 200)
    latent, heat = chocolate.LATENT_HEAT["dark"], chocolate.SPECIFIC_HEAT
    ends = (heat * (batch * melted_at + seeds * 20) - 0.9 * latent * seeds) / (heat * (batch + seeds))
    figure, axes = plt.subplots(figsize=(7.2, 4.4), dpi=100, layout="constrained")
    axes.set_title("Where the bowl ends up as seed goes in", fontsize=14, loc="left")
    axes.set_xlabel("seed, % of the melted chocolate")
    axes.set_ylabel("temperature of the bowl, °C")
    axes.axvspan(20, 33, facecolor="#d9d9d9", edgecolor="#9a9a9a", hatch="//", alpha=0.6, lw=0, label="habit")
    axes.axhspan(31, 32, facecolor="#f2c14e", alpha=0.75, lw=0, label="working band")
    axes.plot(100 * seeds / batch, ends, lw=2.5, label="bowl, by heat balance")
    axes.plot([0, 100 * seed / batch, 100 * seed / batch], [31.5, 31.5, 0], "k--", lw=1.2)
    axes.plot([100 * seed / batch], [31.5], "o", ms=10, label="the seed you need")
    axes.legend(loc="upper right", fontsize=11)
    axes.set(xlim=(0, 60), ylim=(24, 56))
    plt.show()
"""
# The clock starts with the key and stops in the first frame after a picture with another source is decoded.
_WATCH = """cell => {
  const timer = {times: []};
  window.timer = timer;
  let start = null, before = null;
  const pictures = () => [...cell.querySelectorAll('.jp-OutputArea img')];
  document.addEventListener('keydown', event => {
    start = event.timeStamp; before = new Set(pictures().map(one => one.src)); }, true);
  new MutationObserver(async () => {
    const fresh = start !== null && pictures().find(one => one.src && !before.has(one.src));
    if (!fresh) return;
    const began = start;
    start = null;
    await fresh.decode();
    requestAnimationFrame(() => timer.times.push(performance.now() - began));
  }).observe(cell, {subtree: true, childList: true, attributes: true, attributeFilter: ['src']});
}"""


@contextlib.contextmanager
def _lab(folder):
    """Address of a JupyterLab that serves `folder`."""
    names = ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")
    names = (*names, "JUPYTERLAB_WORKSPACES_DIR", "JUPYTERLAB_SETTINGS_DIR")
    homes = {name: str(Path(folder, ".home", name)) for name in names}
    command = [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", f"--ServerApp.root_dir={folder}"]
    server = subprocess.Popen(
        [*command, "--ServerApp.ip=127.0.0.1", "--LabApp.extension_manager=readonly"],
        env={**os.environ, **homes},
        stderr=subprocess.PIPE,
        text=True,
    )
    address = None
    for line in server.stderr:
        if found := re.search(r"http://127\.0\.0\.1:\d+/lab\?token=\w+", line):
            address = found.group(0)
            break
    threading.Thread(target=server.stderr.read, daemon=True).start()
    try:
        yield address
    finally:
        server.terminate()
        server.wait(30)


def _opened(browser, address, name, slider):
    """A page whose notebook has run, the watch set and one slider of it in focus."""
    page = browser.new_context(viewport={"width": 1280, "height": 1000}).new_page()
    # A workspace each: in a shared one the second page would open the first one's notebook too.
    page.goto(address.replace("/lab?", f"/lab/workspaces/{name}/tree/{name}.ipynb?"))
    page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle")).first.wait_for(timeout=90_000)
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    page.locator(".jp-OutputArea img").first.wait_for(timeout=90_000)
    page.wait_for_timeout(1500)
    page.locator(".jp-CodeCell").first.evaluate(_WATCH)
    page.locator(".jp-OutputArea [role=slider]").nth(slider).focus()
    return page


def turning():
    """(bench, interact) in seconds, each the median of its key presses, taken in turn; None where there is no browser."""
    names = ("chromium", "chromium-browser", "google-chrome")
    found = next((path for name in names if (path := shutil.which(name))), None)
    if not found:
        return None
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder, sync_playwright() as playwright:
        for name, code in (("bench", _BENCH), ("interact", _INTERACT)):
            notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code)])
            notebook.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
            nbformat.write(notebook, Path(folder, f"{name}.ipynb"))
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox", "--disable-gpu"])
        with _lab(folder) as address:
            # "It stands at" is the bench's second slider, and the only one of interact.
            pages = [_opened(browser, address, "bench", 1), _opened(browser, address, "interact", 0)]
            for turn in range(_TURNS):
                for page in pages:
                    page.keyboard.press(("ArrowRight", "ArrowLeft")[turn % 2])
                    page.wait_for_function("n => window.timer.times.length > n", arg=turn, timeout=20_000)
                    page.wait_for_timeout(150)
            times = [page.evaluate("window.timer.times") for page in pages]
            browser.close()
    return tuple(statistics.median(one[_WARMING:]) / 1000 for one in times)


if __name__ == "__main__":
    print(turning())
