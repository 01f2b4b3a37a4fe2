package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.profile.Asking;
import org.rejoin.protocol.yaml.YamlException;

/**
 * Asks a simulator that only answers requests. Only the address that the user gives, said before it is done, and beyond
 * this machine only one that is allowed to send.
 */
record FeedAsk(InetSocketAddress to, Asking asking) {

    private static final Pattern ADDRESS = Pattern.compile("(.+):(\\d{1,5})");
    private static final int SHOWN = 40;

    /**
     * What the user and the profiles say together.
     *
     * @param ask HOST:PORT as typed; empty where nobody is to be asked
     * @param formats names of formats and files of profiles
     * @param port whose allowed senders are the only ones asked beyond this machine
     * @return empty where nobody is to be asked
     * @throws BadInput if one speaks of asking and the other does not, or the address may not be asked
     */
    static Optional<FeedAsk> of(String ask, List<String> formats, FeedPort port) throws IOException, BadInput {
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
        return Optional.of(new FeedAsk(address(ask, port), asking.get()));
    }

    /**
     * What the user types, without a profile.
     *
     * @param everyS how often, seconds
     * @throws BadInput if one is not sound, or the address may not be asked
     */
    static FeedAsk typed(FeedPort port, String request, double everyS) throws BadInput {
        try {
            return new FeedAsk(address(port.ask, port), Asking.typed(request, everyS));
        } catch (YamlException e) {
            throw new BadInput("--request: " + e.getMessage());
        }
    }

    private static InetSocketAddress address(String ask, FeedPort port) throws BadInput {
        Matcher parts = ADDRESS.matcher(ask);
        if (!parts.matches() || Integer.parseInt(parts.group(2)) > 65_535 || Integer.parseInt(parts.group(2)) == 0) {
            throw new BadInput("--ask " + ask + " is not HOST:PORT, as 127.0.0.1:5000 is");
        }
        try {
            InetAddress host = InetAddress.getByName(parts.group(1));
            if (!host.isLoopbackAddress() && !port.senders().contains(host)) {
                throw new BadInput("--ask " + ask + " is beyond this machine: allow its answers, too, with --allow "
                        + parts.group(1) + " and --bind");
            }
            return new InetSocketAddress(host, Integer.parseInt(parts.group(2)));
        } catch (UnknownHostException e) {
            throw new BadInput("--ask " + ask + ": there is no host " + parts.group(1));
        }
    }

    /**
     * Says whom it asks and with what, then begins.
     *
     * @param feed from whose port it is asked, so that the answer comes there
     * @param say takes one line
     */
    void start(UdpFeed feed, Consumer<String> say) {
        byte[] octets = asking.octets();
        say.accept(Words.say(
                "asking %s:%d every %s s with %d octets: \"%s\"",
                to.getAddress().getHostAddress(),
                to.getPort(),
                asking.everyS() == Math.rint(asking.everyS())
                        ? String.valueOf((long) asking.everyS())
                        : String.valueOf(asking.everyS()),
                octets.length,
                PlainText.of(new String(octets, StandardCharsets.ISO_8859_1), SHOWN)));
        feed.ask(to, octets, Math.round(asking.everyS() * 1000));
    }
}
