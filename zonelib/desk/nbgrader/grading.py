"""Mark a notebook's exercises from the answers handed in with it; this stands where its code would be run."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from nbgrader import utils
from nbgrader.api import Gradebook
from nbgrader.preprocessors import NbGraderPreprocessor

from zonelib.desk.gradebook import handed_over as fit
from zonelib.desk.marked import Marked, mark_submission
from zonelib.desk.nbgrader.plain_notebook import node
from zonelib.desk.page import reasons_html
from zonelib.desk.released import VARIANTS, Released, read_tree
from zonelib.desk.submissions import read_submission

__all__ = ["GradeFromAnswer", "handed_over"]

NO_BUNDLE = (
    "There is no bundle for this cell beside its source notebook, so it earns nothing. Tell your tutor."
)


class GradeFromAnswer(NbGraderPreprocessor):  # type: ignore[misc]  # nbgrader ships no types
    """Writes into each marked cell the reasons and the mark.

    A cell is known by its name in the gradebook, which is the exercise's; answers are read from the
    submission as it was handed in, bundles from the source tree. Cells a tutor marks by hand are left alone.
    """

    def preprocess(self, nb: Any, resources: Any) -> tuple[Any, Any]:
        """Mark all cells that nbgrader would otherwise have run."""
        names = resources["nbgrader"]
        marked = self._marked(names["student"], names["assignment"])
        with Gradebook(names["db_url"]) as book:
            points = book.find_notebook(names["notebook"], names["assignment"]).grade_cells
            worth = {cell.name: float(cell.max_score) for cell in points}
        for cell in nb.cells:
            if utils.is_grade(cell) and not utils.is_solution(cell) and cell.cell_type == "code":
                name = cell.metadata.nbgrader["grade_id"]
                cell.outputs = self._outputs(name, worth[name], marked)
        return nb, resources

    def _marked(self, student: str, assignment: str) -> Mapping[str, Marked]:
        courses = self.parent.parent.coursedir
        source = Path(courses.format_path(courses.source_directory, ".", assignment))
        submitted = Path(courses.format_path(courses.submitted_directory, student, assignment))
        read = read_tree(source)
        bundles = {name: one for each in read.assignments.values() for name, one in each.items()}
        # A trainee with a room of his or her own is marked by that room; the tree of variants lies beside.
        own = Released(source, {assignment: bundles}, source.resolve().parents[1] / VARIANTS, read.renewed)
        bundles = dict(own.bundles_for(assignment, student))
        submission = read_submission(submitted, student, assignment)
        return {one.exercise: one for one in mark_submission(submission, assignment, bundles)}

    def _outputs(self, name: str, points: float, marked: Mapping[str, Marked]) -> list[Any]:
        row = marked.get(name)
        if row is None:
            self.log.error("There is no bundle for the cell %s in the source tree; it earns nothing.", name)
            return _shown(f"<p>{NO_BUNDLE}</p>", 0.0)
        if row.result.points != points:
            told = "The cell %s is worth %s in the gradebook and %s in its bundle; the mark is scaled."
            self.log.warning(told, name, points, row.result.points)
        return _shown(reasons_html(row, name=name), handed_over(row, points))


def handed_over(row: Marked, points: float) -> float:
    """Return a row's mark as nbgrader must get it."""
    return fit(row.result.score, row.result.points, points)


def _shown(html: str, score: float) -> list[Any]:
    reasons = {"text/html": html, "text/plain": "The reasons for the mark"}
    mark = {"text/plain": repr(float(score))}
    shown = {"output_type": "display_data", "metadata": {}, "data": reasons}
    return [node(shown), node({**shown, "output_type": "execute_result", "data": mark, "execution_count": 1})]
