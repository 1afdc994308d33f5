"""The desk: the working copy, JupyterLab on it, the command line."""
