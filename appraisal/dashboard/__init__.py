"""The dashboard: screens over one draft of a scenario. No arithmetic; results come from the spine and from risk."""
