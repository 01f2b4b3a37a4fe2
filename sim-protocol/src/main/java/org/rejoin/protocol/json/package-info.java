/**
 * This project's own state: one JSON object a line.
 *
 * <p>Start at {@link org.rejoin.protocol.json.JsonFormat}.
 */
@NullMarked
package org.rejoin.protocol.json;

import org.jspecify.annotations.NullMarked;
