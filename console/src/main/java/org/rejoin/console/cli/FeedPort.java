package org.rejoin.console.cli;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import picocli.CommandLine.Option;

/** {@code --port}, {@code --bind}, {@code --allow}. */
final class FeedPort {

    @Option(names = "--port", paramLabel = "N", description = "UDP port to listen on (default: 3000).")
    int port = 3000;

    @Option(
            names = "--bind",
            paramLabel = "ADDRESS",
            description =
                    "Address to listen on (default: 127.0.0.1). Beyond this machine, --allow is needed, for anyone"
                            + " on the network could send.")
    String bind = "127.0.0.1";

    @Option(
            names = "--allow",
            paramLabel = "ADDRESS",
            description = "Hear only these senders; may be given several times.")
    List<String> allow = new ArrayList<>();

    InetSocketAddress address() {
        if (port < 0 || port > 65_535) {
            throw new IllegalArgumentException("--port " + port + " is not in 0 to 65535");
        }
        return new InetSocketAddress(address(bind), port);
    }

    Set<InetAddress> senders() {
        Set<InetAddress> senders = new LinkedHashSet<>();
        allow.forEach(text -> senders.add(address(text)));
        return senders;
    }

    private static InetAddress address(String text) {
        try {
            return InetAddress.getByName(text);
        } catch (UnknownHostException e) {
            throw new IllegalArgumentException("\"" + text + "\" is not an address", e);
        }
    }
}
