"""The rule `galvanic-couple`: its questions and its arithmetic in whole millivolts."""
