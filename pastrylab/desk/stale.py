"""What of a saved lesson dies with its kernel: views of widgets, and errors of a run that is over."""

VIEW = "application/vnd.jupyter.widget-view+json"


def cleared(notebook):
    """True where a notebook (as parsed JSON, changed in place) held a view of a widget, its state or an error.

    They are taken out: opened again, such a view says that its model is not found, and an old error stands there in
    red. A cell that loses its output loses its number too, so that it looks like one that has still to be run. What is
    printed stays, and so does every text.
    """
    found = notebook.get("metadata", {}).pop("widgets", None) is not None
    for cell in notebook.get("cells", []):
        outputs = cell.get("outputs")
        if not outputs:
            continue
        alive = [output for output in outputs if not _is_stale(output)]
        if len(alive) < len(outputs):
            cell["outputs"], found = alive, True
            if not alive:
                cell["execution_count"] = None
    return found


def _is_stale(output):
    kind = output.get("output_type")
    return kind == "error" or VIEW in output.get("data", {}) or (kind == "stream" and output.get("name") == "stderr")


def before_saving(model, **_):
    """Jupyter's hook before a file is saved: no lesson is saved with what dies with its kernel."""
    if model.get("type") == "notebook" and isinstance(model.get("content"), dict):
        cleared(model["content"])
