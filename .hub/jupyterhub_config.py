"""A class on one server: JupyterHub with a working copy for every student and one course folder for the instructors.

Read .hub/README.md first. What differs from house to house stands in the environment: the folders, the instructors'
group, the size of the class, the address. Everything else may be overruled below the last line, or in a file of your own
that begins with load_subconfig("jupyterhub_config.py").
"""

import os
import sys
from pathlib import Path

from pastrylab.desk import shared

c = get_config()  # noqa: F821  given by JupyterHub

HERE = Path(__file__).resolve().parent
HOME = Path(os.environ.get("PASTRYLAB_SERVER", "/srv/pastrylab"))
COURSE, STUDENTS, STATE = (HOME / name for name in ("course", "students", "hub"))
TEACHERS = os.environ.get("PASTRYLAB_TEACHERS", "teachers")
CLASS_SIZE = int(os.environ.get("PASTRYLAB_CLASS_SIZE", "60"))

shared.lay_ground(HOME, TEACHERS)  # the folders below, and the course folder filled from what is installed

# --- who comes in ------------------------------------------------------------------------------------------------

# Accounts of this machine and their passwords (PAM). Any other authenticator takes its place here, as long as everybody
# who comes in has an account of their own on this machine: files are kept apart by it.
c.JupyterHub.authenticator_class = "pam"
c.Authenticator.allow_all = True  # who has an account here; see Authenticator.allowed_users for fewer
c.Authenticator.blocked_users = {"root"}
c.PAMAuthenticator.open_sessions = False

# --- where it listens ---------------------------------------------------------------------------------------------

# Loopback alone: HTTPS stands in front of it (README).
c.JupyterHub.bind_url = os.environ.get("PASTRYLAB_ADDRESS", "http://127.0.0.1:8000")
c.JupyterHub.cookie_secret_file = str(STATE / "cookie_secret")
c.JupyterHub.db_url = f"sqlite:///{STATE / 'hub.sqlite'}"
c.ConfigurableHTTPProxy.pid_file = str(STATE / "proxy.pid")
# A hub that is started again finds the servers it left, and nobody notices.
c.JupyterHub.cleanup_servers = False
c.ConfigurableHTTPProxy.should_start = True

# --- everybody's own server ---------------------------------------------------------------------------------------

c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"
c.Spawner.cmd = [sys.executable, str(HERE / "start_one.py")]
c.Spawner.default_url = "/doc/tree/lessons/00-start-here.ipynb"
c.Spawner.environment = {"PASTRYLAB_COURSE": str(COURSE), "PASTRYLAB_STUDENTS": str(STUDENTS)}
c.Spawner.env_keep = ["PATH", "LANG", "LC_ALL", "PYTHONPATH"]
c.Spawner.start_timeout = c.Spawner.http_timeout = 300  # a whole class at the same minute
# A class presses the button together; with fewer, the last are refused.
c.JupyterHub.concurrent_spawn_limit = max(CLASS_SIZE, 20)
c.JupyterHub.active_server_limit = 0


def own_folder(spawner):
    """Make a student's folder, as root, before their server starts."""
    shared.room_for(STUDENTS, spawner.user.name, TEACHERS)


c.Spawner.pre_spawn_hook = own_folder

# --- a class started ahead ----------------------------------------------------------------------------------------

# .hub/start_class.py asks with this token; without it nobody can start a server but its owner.
if os.environ.get("PASTRYLAB_CLASS_TOKEN"):
    c.JupyterHub.services = [{"name": "class", "api_token": os.environ["PASTRYLAB_CLASS_TOKEN"]}]
    c.JupyterHub.load_roles = [
        {"name": "class", "services": ["class"], "scopes": ["admin:users", "servers", "list:users"]}
    ]
