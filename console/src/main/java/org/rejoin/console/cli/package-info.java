/**
 * Commands, options and exit codes; the only package that prints or exits. Start at {@code Rejoin}.
 */
@NullMarked
package org.rejoin.console.cli;

import org.jspecify.annotations.NullMarked;
