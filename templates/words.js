{# The wordings with which a page's script says a case; words/english has them. #}
"use strict";
const WORDS = {{ wordings() }};
