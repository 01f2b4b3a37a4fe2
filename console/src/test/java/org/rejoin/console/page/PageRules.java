package org.rejoin.console.page;

import java.net.InetSocketAddress;

/** Rules of the page that tests of other packages ask. */
public final class PageRules {

    private PageRules() {}

    public static boolean isOwn(InetSocketAddress remote, InetSocketAddress local) {
        return PageAccess.isOwn(remote, local);
    }
}
