package org.rejoin.console.cli;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import org.rejoin.console.live.LiveFlight;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

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

    @Option(
            names = "--ask",
            paramLabel = "HOST:PORT",
            description = "Ask the simulator at this address for its data, with what the profile has under \"ask\".")
    String ask = "";

    @Spec(Spec.Target.MIXEE)
    CommandSpec command = CommandSpec.create();

    LiveFlight.Listening listening() {
        return new LiveFlight.Listening(address(), senders());
    }

    InetSocketAddress address() {
        if (port < 0 || port > 65_535) {
            throw AnyCommand.bad(command, "--port " + port + " is not in 0 to 65535");
        }
        InetAddress address = address("--bind", bind);
        if (!address.isLoopbackAddress() && allow.isEmpty()) {
            throw AnyCommand.bad(
                    command,
                    "--bind " + bind + " lets others on the network send; name those that may with --allow ADDRESS, or"
                            + " listen on 127.0.0.1");
        }
        return new InetSocketAddress(address, port);
    }

    Set<InetAddress> senders() {
        Set<InetAddress> senders = new LinkedHashSet<>();
        allow.forEach(text -> senders.add(address("--allow", text)));
        return senders;
    }

    private InetAddress address(String option, String text) {
        try {
            return InetAddress.getByName(text);
        } catch (UnknownHostException e) {
            throw AnyCommand.bad(command, option + " \"" + text + "\" is not an address, as 192.168.1.20 is");
        }
    }
}
