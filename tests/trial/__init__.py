"""From papers, as they come in at the door of a shop, to a final docket."""
