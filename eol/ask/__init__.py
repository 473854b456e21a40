"""Questions to the published copy: analyst SQL and the trail of a unit."""
