package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.profile.Asking;
import org.rejoin.protocol.yaml.YamlException;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code --port}, {@code --bind}, {@code --allow}, {@code --ask}. */
final class FeedPort {

    private static final Pattern HOST_AND_PORT = Pattern.compile("(.+):(\\d{1,5})");
    private static final int SHOWN = 40;

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

    /** Address and port, as a simulator is told them. */
    static String shown(InetSocketAddress address) {
        return address.getAddress().getHostAddress() + ":" + address.getPort();
    }

    /** What user and profiles say together of asking, by names of formats and files; empty where nobody is asked. */
    Optional<Ask> asked(List<String> formats) throws IOException, BadInput {
        Optional<Asking> asking = Optional.empty();
        for (String format : formats) {
            Path file = Path.of(format);
            if (asking.isEmpty() && Files.isRegularFile(file)) {
                try {
                    asking = Asking.of(Files.readString(file));
                } catch (YamlException e) {
                    throw new BadInput(file + ": " + e.getMessage());
                }
            }
        }
        if (ask.isEmpty()) {
            if (asking.isPresent()) {
                throw new BadInput("the profile's simulator sends only when it is asked: say where it is with --ask"
                        + " HOST:PORT");
            }
            return Optional.empty();
        }
        if (asking.isEmpty()) {
            throw new BadInput("--ask " + ask + ": no profile says what to send; a profile has it under \"ask\"");
        }
        return Optional.of(new Ask(simulator(), asking.get()));
    }

    /** What the user types without a profile, and how often, seconds. */
    Ask asked(String request, double everyS) throws BadInput {
        try {
            return new Ask(simulator(), Asking.typed(request, everyS));
        } catch (YamlException e) {
            throw new BadInput("--request: " + e.getMessage());
        }
    }

    /** Only the address that the user gives, and beyond this machine only one that is allowed to send. */
    private InetSocketAddress simulator() throws BadInput {
        Matcher parts = HOST_AND_PORT.matcher(ask);
        if (!parts.matches() || Integer.parseInt(parts.group(2)) > 65_535 || Integer.parseInt(parts.group(2)) == 0) {
            throw new BadInput("--ask " + ask + " is not HOST:PORT, as 127.0.0.1:5000 is");
        }
        try {
            InetAddress host = InetAddress.getByName(parts.group(1));
            if (!host.isLoopbackAddress() && !senders().contains(host)) {
                throw new BadInput("--ask " + ask + " is beyond this machine: allow its answers, too, with --allow "
                        + parts.group(1) + " and --bind");
            }
            return new InetSocketAddress(host, Integer.parseInt(parts.group(2)));
        } catch (UnknownHostException e) {
            throw new BadInput("--ask " + ask + ": there is no host " + parts.group(1));
        }
    }

    /** A simulator that only answers requests, and what it is asked with. */
    record Ask(InetSocketAddress to, Asking asking) {

        /** Says whom it asks and with what, then begins, from the port of the feed that the answer is to come to. */
        void start(UdpFeed feed, Consumer<String> say) {
            byte[] octets = asking.octets();
            double everyS = asking.everyS();
            say.accept(Words.say(
                    "asking %s every %s s with %d octets: \"%s\"",
                    shown(to),
                    everyS == Math.rint(everyS) ? String.valueOf((long) everyS) : String.valueOf(everyS),
                    octets.length,
                    PlainText.of(new String(octets, StandardCharsets.ISO_8859_1), SHOWN)));
            feed.ask(to, octets, Math.round(everyS * 1000));
        }
    }
}
