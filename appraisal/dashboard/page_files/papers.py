from appraisal.dashboard.frame import open_screen

open_screen("papers")
