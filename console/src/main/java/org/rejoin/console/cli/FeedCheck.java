package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

import org.rejoin.console.recording.Capture;
import org.rejoin.console.watch.FeedSample;
import org.rejoin.console.watch.FeedSamples;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code feed check}: decodes with a profile and shows what comes of it. */
@Command(
        name = "check",
        description =
                "Decode datagrams with a profile: those of a capture, or one datagram's payload from standard input.")
final class FeedCheck extends AnyCommand.Verbose {

    @Parameters(paramLabel = "PROFILE", description = "A profile file, or dis, nmea or json.")
    String profile = "";

    @Option(names = "--capture", paramLabel = "FILE", description = "A capture (classic pcap) to decode.")
    @Nullable
    Path capture;

    @Option(
            names = "--json",
            description = "Print one JSON object a sample; time_s counts from the first, by the sender's clock where"
                    + " the profile has one.")
    boolean json;

    private @Nullable Datagram first;

    @Override
    public Integer call() throws Exception {
        WireFormat format = BadInput.in(() -> Formats.named(profile));
        FeedSamples samples = new FeedSamples(format);
        if (capture == null) {
            first = standardInput();
            print(samples.accept(first));
        } else {
            decode(capture, samples);
        }
        print(samples.finish());
        if (samples.samples() == 0) {
            throw new BadInput(samples.why() + otherFormat());
        }
        err().println("rejoin: " + samples.counts());
        samples.remarks().forEach(remark -> err().println("rejoin: " + remark));
        return Rejoin.DONE;
    }

    private void decode(Path file, FeedSamples samples) throws IOException, BadInput {
        try (Capture packets = BadInput.in(() -> Capture.open(file))) {
            for (Optional<Datagram> next = packets.next(); next.isPresent(); next = packets.next()) {
                first = first == null ? next.get() : first;
                print(samples.accept(next.get()));
            }
            if (samples.samples() > 0) {
                packets.tear().ifPresent(tear -> err().println("rejoin: " + file + ": " + tear));
                packets.skipped().ifPresent(skipped -> err().println("rejoin: " + file + ": " + skipped));
            }
        }
    }

    /** What the first datagram looks like, where that is not the format asked for. */
    private String otherFormat() {
        Datagram datagram = first;
        if (datagram == null) {
            return "";
        }
        return Formats.builtIn().stream()
                .filter(format -> !format.name().equalsIgnoreCase(profile) && format.recognises(datagram))
                .findFirst()
                .map(format -> "; this looks like " + format.name() + ": try feed check " + format.name())
                .orElse("");
    }

    private void print(List<FeedSample> samples) {
        samples.forEach(sample -> out().println(json ? sample.json() : sample.text()));
    }

    private static Datagram standardInput() throws IOException, BadInput {
        byte[] octets = System.in.readNBytes(Datagram.MAX_LENGTH + 1);
        if (octets.length == 0) {
            throw new BadInput("standard input is empty; one datagram's payload is wanted there (feed check PROFILE"
                    + " < sample), or a capture with --capture FILE");
        }
        if (octets.length > Datagram.MAX_LENGTH) {
            throw new BadInput("standard input has more than the " + Datagram.MAX_LENGTH
                    + " octets of a datagram; give a capture with --capture FILE");
        }
        return Datagram.of(0, new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), octets);
    }
}
