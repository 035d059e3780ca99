"""Many jobs: each checked by itself, on the cores of this machine or on a cluster, and told on one page."""
