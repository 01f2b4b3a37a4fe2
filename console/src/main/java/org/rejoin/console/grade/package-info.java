/**
 * Events and samples to a grade against a tolerance set. Pure.
 */
@NullMarked
package org.rejoin.console.grade;

import org.jspecify.annotations.NullMarked;
