"""Many builds to a month's tables and pages."""
