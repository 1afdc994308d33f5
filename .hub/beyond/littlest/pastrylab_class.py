"""Written, not run. A class on The Littlest JupyterHub (TLJH); its place and its steps are in .hub/beyond/README.md.

[1] to [7] are the pages each setting was read in, listed there. TLJH's hub runs in an environment of its own, without
pastrylab: so what needs the package is asked of the Python of the user environment.
"""

import asyncio
import os
import subprocess

from tljh import user
from tljh.normalize import generate_system_username

c = get_config()  # noqa: F821  given by JupyterHub

PYTHON = "/opt/tljh/user/bin/python"  # [2] where TLJH keeps the environment of its users
PROJECT = "/opt/pastrylab"  # this project's folder, readable by everybody
HOME = "/srv/pastrylab"  # [3] shared folders lie below /srv
TEACHERS = "teachers"
AS_ROOT = [PYTHON, f"{PROJECT}/.hub/beyond/littlest/as_root.py", HOME, TEACHERS]

subprocess.run(AS_ROOT, check=True)  # course, students, hub; the course is filled from what is installed

# [5] the hub's own settings: the start script sets umask and folders, and lets kernels talk over sockets that are files.
c.Spawner.cmd = [PYTHON, f"{PROJECT}/.hub/start_one.py"]
c.Spawner.default_url = "/doc/tree/lessons/00-start-here.ipynb"
c.Spawner.environment.update({"PASTRYLAB_COURSE": f"{HOME}/course", "PASTRYLAB_STUDENTS": f"{HOME}/students"})
c.Spawner.start_timeout = c.Spawner.http_timeout = 300
c.JupyterHub.concurrent_spawn_limit = 60  # at least the class
# [6] a folder for temporary files of one's own: the sockets of the kernels lie in it.
c.SystemdSpawner.isolate_tmp = True


async def own_folder(spawner):
    """Make a student's folder before their server starts; [5] the hook may wait without holding up the hub.

    [4] TLJH calls 17 `jupyter-17`, and makes that account and its groups only when the server starts, which is after this:
    so they are made here, by TLJH's own functions [7], which do nothing where all is there.
    """
    account = generate_system_username(f"jupyter-{spawner.user.name}")
    user.ensure_user(account)
    for group, names in spawner.user_groups.items():
        if spawner.user.name in names:
            user.ensure_user_group(account, group)
    made = await asyncio.create_subprocess_exec(*AS_ROOT, account, env={"PATH": os.defpath})
    if await made.wait():
        raise RuntimeError(f"no folder for {account}: what stopped it is in the hub's log")


c.Spawner.pre_spawn_hook = own_folder
