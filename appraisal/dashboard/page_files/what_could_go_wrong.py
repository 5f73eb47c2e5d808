from appraisal.dashboard.frame import open_screen

open_screen("what_could_go_wrong")
