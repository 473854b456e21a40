"""Settings of a plant folder in, frozen settings, calendar and declared tables out."""
