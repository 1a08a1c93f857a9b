"""The sheets of a build book, one module a sheet, in the order of the work."""
