"""Many books at once: tasks, processes, what is kept, and the files written."""
