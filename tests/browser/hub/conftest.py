"""A real hub for the tests, with accounts of its own: they live in a mount namespace, so that nothing of this machine
changes. Three Pythons, a proxy in Node.js, and what a class does with them."""

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
TEACHER = "chef"
PASSWORD, CLASS_TOKEN = "tempered at 31", "the-word-of-the-tests"
_FIRST_ID = 30_000


def missing():
    """Why no hub can be started here, in words, or ""."""
    if sys.platform != "linux" or os.geteuid() != 0:
        return "a hub starts servers for several accounts: root on Linux is needed"
    for name, what in (("unshare", "unshare"), ("nsenter", "nsenter"), ("openssl", "openssl"), ("node", "Node.js")):
        if not shutil.which(name):
            return f"{what} is not installed"
    if not _proxy():
        return "the proxy is not installed: npm install -g configurable-http-proxy"
    if subprocess.run(["unshare", "-m", "true"], capture_output=True).returncode:
        return "this machine allows no mount namespaces"
    return ""


def _proxy():
    return shutil.which("configurable-http-proxy")


def _free_ports(count):
    held = [socket.socket() for _ in range(count)]
    for one in held:
        one.bind(("127.0.0.1", 0))
    ports = [one.getsockname()[1] for one in held]
    for one in held:
        one.close()
    return ports


class Hub:
    """A hub with a teacher and students, on folders of its own. Call `start`, in the end `stop`."""

    def __init__(self, students, size=20, environment=()):
        self.students = list(students)
        self.home = Path(tempfile.mkdtemp(prefix="plhub-", dir="/tmp"))
        self.home.chmod(0o755)
        self.server, self.log, self._size, self._more = (
            self.home / "server",
            self.home / "hub.log",
            size,
            dict(environment),
        )
        self.course, self.folders = self.server / "course", self.server / "students"
        self.address, proxy, inner = (f"http://127.0.0.1:{port}" for port in _free_ports(3))
        (self.home / "config.py").write_text(
            f'load_subconfig("{ROOT}/.hub/jupyterhub_config.py")\n'
            f'c = get_config()\nc.ConfigurableHTTPProxy.api_url = "{proxy}"\nc.JupyterHub.hub_bind_url = "{inner}"\n'
        )
        self.process = None
        self._accounts()

    def folder(self, student):
        return self.folders / student / "pastrylab-workbook"

    # --- what stands before it starts ---------------------------------------------------------------------------

    def _accounts(self):
        etc = self.home / "etc"
        etc.mkdir(mode=0o700)
        secret = subprocess.run(["openssl", "passwd", "-6", "-stdin"], input=PASSWORD, capture_output=True, text=True)
        everybody = [TEACHER, *self.students]
        self.ids = {name: _FIRST_ID + i for i, name in enumerate(everybody)}
        group = _FIRST_ID + 999
        lines = {"passwd": [], "shadow": [], "group": [f"teachers:x:{group}:{TEACHER}"]}
        for name, number in self.ids.items():
            lines["passwd"].append(f"{name}:x:{number}:{number}::{self.home}/at-home/{name}:/bin/bash")
            lines["shadow"].append(f"{name}:{secret.stdout.strip()}:20000:0:99999:7:::")
            lines["group"].append(f"{name}:x:{number}:")
        for name, more in lines.items():
            there = Path("/etc", name)
            (etc / name).write_text(there.read_text() + "\n".join(more) + "\n")
            shutil.copystat(there, etc / name)
        for name, number in self.ids.items():
            home = self.home / "at-home" / name
            home.mkdir(parents=True)
            os.chown(home, number, number)
            home.chmod(0o700)

    def _script(self):
        """The namespace: accounts bound over the machine's, and what this Python needs made readable for everybody."""
        lines = ["set -e", f"cd {self.home}"]
        for name in ("passwd", "shadow", "group"):
            lines.append(f"mount --bind {self.home}/etc/{name} /etc/{name}")
        needed = [Path(sys.prefix), Path(sys.base_prefix).resolve(), ROOT, Path(_proxy()).resolve().parents[2]]
        shut = {}
        for path in needed:
            closed = [one for one in path.parents if not one.stat().st_mode & 0o001]
            if closed:
                shut.setdefault(closed[-1], []).append(path)
        for number, (closed, paths) in enumerate(shut.items()):
            for i, path in enumerate(paths):
                lines += [f"mkdir -p hold/{number}/{i}", f"mount --bind {path} hold/{number}/{i}"]
            lines.append(f"mount -t tmpfs -o mode=755 none {closed}")
            for i, path in enumerate(paths):
                lines += [f"mkdir -p {path}", f"mount --bind hold/{number}/{i} {path}"]
        return "\n".join([*lines, f"exec {sys.executable} -m jupyterhub -f {self.home}/config.py"])

    # --- start and stop -----------------------------------------------------------------------------------------

    def start(self):
        environment = {
            "PATH": f"{Path(_proxy()).parent}:{os.environ['PATH']}",
            "LANG": "C.UTF-8",
            "HOME": str(self.home),
            "PYTHONPATH": str(ROOT),
            "PASTRYLAB_SERVER": str(self.server),
            "PASTRYLAB_ADDRESS": self.address,
            "PASTRYLAB_CLASS_SIZE": str(self._size),
            **self._more,
        }
        with self.log.open("a") as log:
            self.process = subprocess.Popen(
                ["unshare", "-m", "--propagation", "private", "bash", "-c", self._script()],
                env=environment,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        self._wait(lambda: urllib.request.urlopen(f"{self.address}/hub/health", timeout=5).status == 200, 60)
        return self

    def _wait(self, done, seconds):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if self.process.poll() is not None:
                break
            try:
                if done():
                    return
            except OSError:
                pass
            time.sleep(0.2)
        raise AssertionError("the hub did not come up:\n" + self.log.read_text()[-4000:])

    def give(self, who, text):
        """A file with this text in somebody's own home; its Path."""
        path = self.home / "at-home" / who / "given.txt"
        path.write_text(text, "utf-8")
        os.chown(path, self.ids[who], self.ids[who])
        return path

    def as_person(self, who):
        """The command that makes of root one of the accounts, in front of the command it is to run."""
        return ["setpriv", f"--reuid={self.ids[who]}", f"--regid={self.ids[who]}", "--init-groups", "--"]

    def run_as(self, who, *command, check=False):
        """Run a command inside the namespace as one of the accounts; the CompletedProcess, its output as text."""
        inside = ["nsenter", "-t", str(self.process.pid), "-m", *self.as_person(who), *map(str, command)]
        environment = {"PATH": os.environ["PATH"], "HOME": f"{self.home}/at-home/{who}", "PYTHONPATH": str(ROOT)}
        return subprocess.run(inside, capture_output=True, text=True, check=check, env=environment, cwd="/", timeout=60)

    def stop_hub(self):
        """Stop the hub and its proxy alone, as a restart does: people's servers go on."""
        self.process.terminate()
        self.process.wait(30)

    def stop(self):
        if self.process and self.process.poll() is None:
            self.stop_hub()
        for path in Path("/proc").glob("[0-9]*"):
            try:
                if path.stat().st_uid in self.ids.values():
                    os.kill(int(path.name), 9)
            except OSError:
                continue
        shutil.rmtree(self.home, ignore_errors=True)


@pytest.fixture(scope="session")
def hub():
    """A running hub with a teacher and two students, 17 and 18; skipped in words where none can run."""
    reason = missing()
    if reason:
        if os.environ.get("PASTRYLAB_REQUIRE_HUB"):
            pytest.fail(f"PASTRYLAB_REQUIRE_HUB is set, but {reason}")
        pytest.skip(reason)
    one = Hub(["s17", "s18"], environment={"PASTRYLAB_CLASS_TOKEN": CLASS_TOKEN})
    try:
        yield one.start()
    finally:
        one.stop()


@pytest.fixture
def enter(hub, chromium):
    """enter(who): a page of that person's own browser, logged in, on the first lesson; it remembers what it asked for."""
    contexts = []

    def entered(who, lesson="00-start-here.ipynb"):
        context = chromium.new_context(viewport={"width": 1280, "height": 1000})
        contexts.append(context)
        page = context.new_page()
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        page.goto(f"{hub.address}/hub/login?next=/hub/user-redirect/doc/tree/lessons/{lesson}")
        page.fill("#username_input", who)
        page.fill("#password_input", PASSWORD)
        page.click("#login_submit")
        page.locator(".jp-Notebook .jp-Cell").first.wait_for(timeout=60_000)
        return page

    yield entered
    for context in contexts:
        context.close()
