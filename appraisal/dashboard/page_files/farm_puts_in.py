from appraisal.dashboard.frame import open_screen

open_screen("farm_puts_in")
