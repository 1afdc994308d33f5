"""Written, not run in a pod yet. An instructor's server first fills the course folder from the image; then all is as on one server.

Who may write in the course folder is an instructor: values.yaml gives students' servers its lessons and datasets to read.
"""

import os
import runpy
from pathlib import Path

from pastrylab.desk import shared

if __name__ == "__main__":
    if shared.teaches():
        shared.fill_course(Path(os.environ["PASTRYLAB_COURSE"]))
    runpy.run_path(str(Path(__file__).resolve().parent / "start_one.py"), run_name="__main__")
