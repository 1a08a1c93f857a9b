"""A build's summary as pages, prints, sheets and data."""
