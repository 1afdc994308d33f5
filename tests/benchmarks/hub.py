"""What a class costs a server: N students open a lesson and run all of it. By hand: python tests/benchmarks/hub.py 20

Memory is PSS (a page shared by many counted once), CPU is seconds of all processes of all students. In place of a lesson:

- `bare`: our servers, and kernels that import what a notebook of this kind imports (BARE) and nothing of ours;
- `same`: our servers, and kernels that import no more than a lesson ends with (SAME), nothing of ours either;
- `stock`: JupyterHub's own servers as they come, without the light start of desk/served and the settings of .hub, and
  kernels as in `bare`: what a college has that gives its students notebooks and not this project.

`lesson / bare` is what our lessons and cards add, `lesson / stock` what a class costs beside plain notebooks.
"""

import asyncio
import importlib.util
import json
import os
import re
import sys
import time
from pathlib import Path

import tornado.httpclient
import tornado.websocket

HERE = Path(__file__).resolve().parent
_spec = importlib.util.spec_from_file_location("hub_of_the_tests", HERE.parent / "browser" / "hub" / "conftest.py")
hub_of_the_tests = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(hub_of_the_tests)

TOKEN = "for-the-benchmark-alone"
BARE = [
    "import ipywidgets, matplotlib.pyplot as plt, numpy, pandas, pint",
    "figure = plt.figure(); plt.plot([1, 2]); figure.savefig(__import__('io').BytesIO())",
    "import ipywidgets; box = ipywidgets.VBox([ipywidgets.FloatSlider(), ipywidgets.HTML()]); display(box)",
]
SAME = [
    "import io, ipywidgets, jinja2, numpy, pint\n"
    "from matplotlib.backends.backend_agg import FigureCanvasAgg\nfrom matplotlib.figure import Figure",
    "figure = Figure(); FigureCanvasAgg(figure); figure.add_subplot().plot([1, 2]); figure.savefig(io.BytesIO())",
    "box = ipywidgets.VBox([ipywidgets.FloatSlider(), ipywidgets.HTML()]); display(box)",
]
PLAIN = {"bare": BARE, "same": SAME, "stock": BARE}
# The way a hub starts a server where nobody says otherwise.
STOCK = """
import sys
c.Spawner.cmd = [sys.executable, "-m", "jupyterhub.singleuser"]
"""


def processes(numbers):
    """[(PSS in MiB, CPU seconds)] of all processes whose owner is one of these."""
    found = []
    for name in os.listdir("/proc"):
        try:
            if name.isdigit() and os.stat(f"/proc/{name}").st_uid in numbers:
                rolled = Path(f"/proc/{name}/smaps_rollup").read_text()
                stat = Path(f"/proc/{name}/stat").read_text().rsplit(")", 1)[1].split()
                ticks = sum(map(int, stat[11:15]))
                found.append(
                    (int(re.search(r"^Pss:\s+(\d+)", rolled, re.M)[1]) / 1024, ticks / os.sysconf("SC_CLK_TCK"))
                )
        except OSError:
            continue
    return found


async def asked(address, path, method="GET", body=None):
    client = tornado.httpclient.AsyncHTTPClient()
    headers = {"Authorization": f"token {TOKEN}"}
    data = None if method == "GET" else json.dumps(body or {})
    answer = await client.fetch(
        f"{address}{path}", method=method, body=data, headers=headers, request_timeout=300, raise_error=False
    )
    return answer.code, json.loads(answer.body) if answer.body else None


async def student(address, who, cells):
    """Start one student's server and kernel and run the cells; (seconds to the first picture, faults)."""
    begun = time.monotonic()
    await asked(address, f"/hub/api/users/{who}", "POST")
    await asked(address, f"/hub/api/users/{who}/server", "POST")
    for _second in range(300):
        code, found = await asked(address, f"/hub/api/users/{who}")
        if code == 200 and found["servers"].get("", {}).get("ready"):
            break
        await asyncio.sleep(1)
    else:
        return None, [f"{who}: no server ({code})"]
    code, kernel = await asked(address, f"/user/{who}/api/kernels", "POST", {"name": "python3", "path": "lessons"})
    if code != 201:
        return None, [f"{who}: no kernel ({code})"]
    url = f"{address.replace('http', 'ws')}/user/{who}/api/kernels/{kernel['id']}/channels"
    request = tornado.httpclient.HTTPRequest(url, headers={"Authorization": f"token {TOKEN}"})
    socket = await tornado.websocket.websocket_connect(request)
    first, faults = None, []
    for number, code in enumerate(cells):
        header = {
            "msg_id": f"{who}-{number}",
            "msg_type": "execute_request",
            "username": who,
            "session": who,
            "version": "5.3",
        }
        content = {"code": code, "silent": False, "store_history": True, "allow_stdin": False, "stop_on_error": False}
        message = {"header": header, "parent_header": {}, "metadata": {}, "content": content, "channel": "shell"}
        await socket.write_message(json.dumps(message))
        while True:
            said = await socket.read_message()
            if said is None:
                return first, [*faults, f"{who}: the connection broke"]
            if isinstance(said, bytes):
                continue
            heard = json.loads(said)
            if heard["parent_header"].get("msg_id") != header["msg_id"]:
                continue
            if heard["msg_type"] == "error":
                faults.append(f"{who}: {heard['content']['evalue'][:80]}")
            if heard["msg_type"] in ("display_data", "execute_result") and first is None and number > 1:
                first = time.monotonic() - begun
            if heard["msg_type"] == "status" and heard["content"]["execution_state"] == "idle":
                break
    return first, faults


async def a_class(hub, cells):
    return await asyncio.gather(*(student(hub.address, who, cells) for who in hub.students))


def main():
    count, what = int(sys.argv[1]) if len(sys.argv) > 1 else 20, sys.argv[2] if len(sys.argv) > 2 else "02-tempering"
    if reason := hub_of_the_tests.missing():
        print(f"No hub here: {reason}")
        return 2
    cells = PLAIN.get(what)
    if cells is None:
        lesson = json.loads((hub_of_the_tests.ROOT / "lessons" / f"{what}.ipynb").read_text("utf-8"))
        cells = ["".join(cell["source"]) for cell in lesson["cells"] if cell["cell_type"] == "code"]
    hub = hub_of_the_tests.Hub([f"s{n}" for n in range(1, count + 1)], count, {"PASTRYLAB_CLASS_TOKEN": TOKEN})
    (hub.home / "config.py").write_text(
        (hub.home / "config.py").read_text()
        + 'c.JupyterHub.load_roles = [{"name": "class", "services": ["class"], "scopes": '
        + '["admin:users", "servers", "list:users", "access:servers"]}]\n'
        + (STOCK if what == "stock" else "")
    )
    try:
        hub.start()
        begun = time.monotonic()
        came = asyncio.run(a_class(hub, cells))
        took, found = time.monotonic() - begun, processes(set(hub.ids.values()))
        times = sorted(first for first, _faults in came if first)
        faults = [fault for _first, faults in came for fault in faults]
        print(f"{count} students, {what}: {took:.0f} s until all cells of all had run, load {os.getloadavg()[0]:.1f}")
        print(
            f"PSS {sum(pss for pss, _ in found) / count:.0f} MiB and CPU {sum(cpu for _, cpu in found) / count:.1f} s a student"
        )
        if times:
            print(f"first output of a cell: {times[0]:.0f} to {times[-1]:.0f} s")
        print(f"{len(faults)} faults", *faults[:5], sep="\n  ")
        return 1 if faults else 0
    finally:
        hub.stop()


if __name__ == "__main__":
    raise SystemExit(main())
