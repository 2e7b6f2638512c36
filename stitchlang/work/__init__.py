"""Work on a whole recipe: check it, put its steps in order, explain a measure, lay its text out."""
