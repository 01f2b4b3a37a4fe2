package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;

import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What a page makes of a microphone, in a real browser whose microphone is a file. */
@Timeout(value = 90, unit = TimeUnit.SECONDS)
class MicrophoneInBrowserTest {

    private static final int FILE_RATE = 48_000;

    @TempDir
    Path folder = Path.of("");

    /** A tone that speech has, and one above what 16,000 samples a second can carry. */
    private Path tones(double lowHz, double highHz) throws Exception {
        byte[] octets = new byte[2 * FILE_RATE * 4];
        for (int i = 0; i < octets.length / 2; i++) {
            double t = (double) i / FILE_RATE;
            double value = 0.2 * Math.sin(2 * Math.PI * lowHz * t) + 0.2 * Math.sin(2 * Math.PI * highHz * t);
            int sample = (int) Math.round(value * Short.MAX_VALUE);
            octets[2 * i] = (byte) sample;
            octets[2 * i + 1] = (byte) (sample >> 8);
        }
        Path file = folder.resolve("tones.wav");
        AudioFormat format = new AudioFormat(FILE_RATE, 16, 1, true, false);
        AudioSystem.write(
                new AudioInputStream(new ByteArrayInputStream(octets), format, octets.length / 2),
                AudioFileFormat.Type.WAVE,
                file.toFile());
        return file;
    }

    static List<String> fedFrom(Path wav) {
        return List.of(
                "--use-fake-device-for-media-stream",
                "--use-fake-ui-for-media-stream",
                "--use-file-for-fake-audio-capture=" + wav);
    }

    /** Amplitude of a tone, of full scale 1. */
    private static double tone(double[] samples, double hz, double rate) {
        double real = 0;
        double imaginary = 0;
        for (int i = 0; i < samples.length; i++) {
            double window = 1 - Math.cos(2 * Math.PI * i / samples.length);
            real += window * samples[i] * Math.cos(2 * Math.PI * hz * i / rate);
            imaginary += window * samples[i] * Math.sin(2 * Math.PI * hz * i / rate);
        }
        return 2 * Math.hypot(real, imaginary) / samples.length;
    }

    private static double[] samples(AudioInputStream sound) throws Exception {
        byte[] octets = sound.readAllBytes();
        double[] samples = new double[octets.length / 2];
        for (int i = 0; i < samples.length; i++) {
            samples[i] = (short) ((octets[2 * i] & 0xff) | (octets[2 * i + 1] << 8)) / 32_768.0;
        }
        return samples;
    }

    @Test
    void whatIsSaidBecomesAFileOf16KilohertzWithNothingFoldedDownIntoIt() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty());
                Browser browser = new Browser(folder, 800, 600, fedFrom(tones(1_000, 10_000)))) {
            browser.open(page.address() + "/student");
            JsonNode made = browser.value("""
                    (async () => { const t = await import('/talk.js'); const wait = (ms) => new Promise((done) => setTimeout(done, ms));
                      let loud = 0; const microphone = new t.Microphone((each) => { loud = Math.max(loud, each); });
                      await microphone.turnOn(); await wait(300); const before = loud; microphone.begin(); await wait(1500);
                      const made = await microphone.end(); const wav = new Uint8Array(made.wav); microphone.turnOff();
                      let text = ''; for (const each of wav) { text += String.fromCharCode(each); }
                      return {seconds: made.seconds, loud, before, open: microphone.open, wav: btoa(text)}; })()
                    """);
            // Not a sample is looked at before he holds the button.
            assertThat(made.get("before").asDouble()).isZero();
            assertThat(made.get("loud").asDouble()).isCloseTo(0.4, within(0.1));
            assertThat(made.get("open").asBoolean()).isFalse();
            AudioInputStream sound = AudioSystem.getAudioInputStream(new ByteArrayInputStream(
                    Base64.getDecoder().decode(made.get("wav").asText())));
            assertThat(sound.getFormat().getSampleRate()).isEqualTo(16_000f);
            assertThat(sound.getFormat().getChannels()).isEqualTo(1);
            assertThat(sound.getFormat().getSampleSizeInBits()).isEqualTo(16);
            assertThat(sound.getFrameLength() / 16_000.0)
                    .isCloseTo(made.get("seconds").asDouble(), within(0.001));
            assertThat(made.get("seconds").asDouble()).isBetween(1.4, 3.0);
            double[] samples = samples(sound);
            double kept = tone(samples, 1_000, 16_000);
            assertThat(kept).isBetween(0.2, 0.7);
            // 10 kHz would come back as 16 - 10 = 6 kHz if it were only thinned out.
            assertThat(20 * Math.log10(tone(samples, 6_000, 16_000) / kept)).isLessThan(-40);
            assertThat(browser.complaints()).isEmpty();
        }
    }
}
