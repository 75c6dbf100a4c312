package setplane_test

import _ "copingset/internal/draws"
