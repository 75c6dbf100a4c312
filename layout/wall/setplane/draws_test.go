package setplane_test

import _ "copingset/layout/length/draws"
