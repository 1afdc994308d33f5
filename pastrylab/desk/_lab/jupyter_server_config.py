"""Read by the JupyterLab that `pastrylab open` starts."""

from pastrylab.desk import layouts
from pastrylab.desk.stale import before_saving

c = get_config()  # noqa: F821  given by Jupyter
c.ContentsManager.pre_save_hook = before_saving
c.HTMLExporter.preprocessors = ["pastrylab.desk.printed.Printed"]
c.HTMLExporter.embed_images = True
c.HTMLExporter.exclude_input_prompt = c.HTMLExporter.exclude_output_prompt = True
# Lessons as pages, where Voilà is installed.
c.VoilaConfiguration.template = "lesson"
c.VoilaConfiguration.file_allowlist = [r".*\.(ipynb|png|svg)"]
c.VoilaConfiguration.page_config_hook = layouts.as_page
layouts.forget()
