"""The order of cuts: which saw makes each, set to what, over all sheets of a job."""
