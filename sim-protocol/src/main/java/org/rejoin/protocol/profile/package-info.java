/**
 * Profiles: descriptions of any fixed line of text or binary record, so that no simulator's own format is built in.
 *
 * <p>Start at {@link org.rejoin.protocol.profile.Profile}.
 */
@NullMarked
package org.rejoin.protocol.profile;

import org.jspecify.annotations.NullMarked;
