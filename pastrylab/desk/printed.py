"""A lesson on paper: what is folded on the page is neither printed as code nor left out as text."""

from nbconvert.preprocessors import Preprocessor


class Printed(Preprocessor):
    """Jupyter's export and its *Print*, which goes by the same way: folded code stays away, a folded text stands open."""

    def preprocess_cell(self, cell, resources, _index):
        """The cell as it is printed, and nbconvert's resources unchanged."""
        if cell.cell_type == "code" and cell.metadata.get("jupyter", {}).get("source_hidden"):
            cell.metadata["transient"] = {"remove_source": True}  # nbconvert's own mark: no code, its output stays
        if cell.cell_type == "markdown":
            cell.source = cell.source.replace("<details>", "<details open>")
        return cell, resources
