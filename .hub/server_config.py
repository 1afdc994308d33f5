"""The settings of one person's server on the hub."""

import os

c = get_config()  # noqa: F821  given by Jupyter

c.ServerApp.root_dir = os.environ["PASTRYLAB_WORKBOOK"]
# Over TCP anybody with an account on this machine can listen to anybody's kernel; a socket is a file, and has an owner.
c.KernelManager.transport = "ipc"
# Nobody needs them in a lesson, and each takes memory in every server.
c.ServerApp.terminals_enabled = False
c.ServerApp.jpserver_extensions = {"jupyter_lsp": False, "jupyter_server_terminals": False}
c.LabApp.extension_manager = "readonly"
# A page that was left open keeps its kernel for an hour, a server without kernels for another.
c.MappingKernelManager.cull_idle_timeout = 3600
c.MappingKernelManager.cull_interval = 300
c.MappingKernelManager.cull_connected = True
c.ServerApp.shutdown_no_activity_timeout = 3600
