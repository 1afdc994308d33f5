"""The course: one folder a lesson, with its exercises, figures and benches; and all of them by name."""
