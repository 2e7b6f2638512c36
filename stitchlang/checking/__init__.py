"""What `check` needs to go over many recipes: settings, baselines, several cores, watching."""
