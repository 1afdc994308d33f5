"""The school: what an exercise is, one student's values, the verdict, what was answered."""
