"""Started by the hub as one person: brings the working copy up to date and becomes that person's server."""

import atexit
import os
import shutil
import sys

from pastrylab.desk import served, shared

if __name__ == "__main__":
    os.umask(0o002 if shared.teaches() else 0o027)  # everybody reads the course folder, instructors a student's
    os.environ.update(shared.environment(shared.prepare()))
    atexit.register(shutil.rmtree, os.environ["JUPYTER_RUNTIME_DIR"], ignore_errors=True)
    sys.argv[1:1] = [f"--config={os.path.join(os.path.dirname(os.path.abspath(__file__)), 'server_config.py')}"]
    served.serve("jupyterhub.singleuser")
