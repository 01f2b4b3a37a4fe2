/**
 * Who may come in to the page: sessions that outlive a restart, join codes, and the certificate of an encrypted page.
 *
 * <p>Start at {@link org.rejoin.console.door.Sessions}. Nothing here knows the page's server; time is always passed in.
 */
@NullMarked
package org.rejoin.console.door;

import org.jspecify.annotations.NullMarked;
