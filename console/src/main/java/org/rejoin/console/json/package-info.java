/**
 * How JSON is written: each number rounded in one place by its unit, each place with the same two members. Start at
 * {@code Json}.
 */
@NullMarked
package org.rejoin.console.json;

import org.jspecify.annotations.NullMarked;
