"""How JupyterLab's panels lay on another page, perhaps on another screen, is no business of this one."""

from jupyterlab_server.workspaces_handler import WorkspacesManager


def forget():
    """Let every page of this server begin with the layout that fits its own screen.

    JupyterLab keeps one layout for all windows and has no setting against it: a list of files opened on a telephone
    takes two thirds of a desk's screen. What it asks for at the start of a page is therefore answered as if nothing
    had been saved.
    """
    WorkspacesManager.load = _empty


def _empty(_manager, space_name):
    return {"data": {}, "metadata": {"id": f"/{space_name.removeprefix('/')}"}}


def as_page(config, **_asked):
    """The settings of a lesson as a page: formulas are typeset by nothing, as no lesson has one, and Voilà would ask for it
    at an outside address."""
    return {**config, "fullMathjaxUrl": "null", "mathjaxConfig": "null"}
