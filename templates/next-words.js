{# The wordings with which one aircraft after another is said; words/english has them. #}
"use strict";
const WORDS = {{ next_wordings() }};
