/**
 * Graded attempts as statements of the open standard for learning records (IEEE 9274.1.1, known as xAPI): made, written
 * to a file, or sent to a record store that the user names, queued while it is away, never twice.
 *
 * <p>Start at {@link org.rejoin.console.xapi.Statement}. The only package that opens a connection outward, and only to
 * the address the user typed. What cannot be read or written here is an IOException of one line.
 */
@NullMarked
package org.rejoin.console.xapi;

import org.jspecify.annotations.NullMarked;
