package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** How a voice sounds through the page's radio, measured in a real browser's own sound engine. */
@Timeout(value = 90, unit = TimeUnit.SECONDS)
class RadioSoundInBrowserTest {

    /** Mean power of Hann windows of 512 samples at a frequency, by Goertzel's recurrence, decibels. */
    private static final String POWER = """
            const power = (x, hz) => { const n = 512, w = 2 * Math.cos(2 * Math.PI * hz / 16000); let sum = 0, many = 0;
              for (let from = 4096; from + n <= x.length; from += n / 2, many++) { let a = 0, b = 0;
                for (let i = 0; i < n; i++) { const c = x[from + i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / n)) + w * a - b; b = a; a = c; }
                sum += a * a + b * b - w * a * b; }
              return 10 * Math.log10(sum / many); };
            """;

    /** A voice for measuring: a tone of 140 Hz and its overtones that comes and goes like syllables, with a pause. */
    private static final String VOICE = """
            const voice = Float32Array.from({length: 48000}, (e, i) => { const t = i / 16000; let x = 0;
              for (let k = 1; k < 40; k++) { x += Math.sin(2 * Math.PI * 140 * k * t) / k; }
              return t < 0.3 || (t > 1.2 && t < 1.5) ? 0 : 0.2 * x * Math.abs(Math.sin(2 * Math.PI * 2 * t)); });
            """;

    @TempDir
    static Path folder = Path.of("");

    private static Optional<FlownPage> page = Optional.empty();
    private static Optional<Browser> browser = Optional.empty();

    @BeforeAll
    static void browser() throws Exception {
        page = Optional.of(new FlownPage("radial-outbound", Optional.empty()));
        browser = Optional.of(new Browser(folder, 800, 600));
        browser.get().open(page.get().address() + "/student");
    }

    @AfterAll
    static void close() {
        browser.ifPresent(Browser::close);
        page.ifPresent(FlownPage::close);
    }

    /** What the page's own module gives, as JSON. */
    private static JsonNode value(String body) throws Exception {
        return browser.orElseThrow().value("(async () => { const m = await import('/radio.js');\n" + body + " })()");
    }

    @Test
    void theBandIsThatOfTwoButterworthFiltersOfTheFourthOrder() throws Exception {
        double[] frequencies = {150, 200, 250, 300, 400, 1000, 2000, 3000, 4000, 5000, 6000};
        JsonNode response = value("const at = new Float32Array("
                + new com.fasterxml.jackson.databind.ObjectMapper().writeValueAsString(frequencies)
                + "); const mag = at.map(() => 1); for (const node of m.band(new OfflineAudioContext(1, 1, 16000))) {"
                + " const each = new Float32Array(at.length); node.getFrequencyResponse(at, each, new Float32Array(at.length));"
                + " each.forEach((one, i) => { mag[i] *= one; }); } return [...mag].map(m.db);");
        for (int i = 0; i < frequencies.length; i++) {
            assertThat(response.get(i).asDouble())
                    .as(frequencies[i] + " Hz")
                    .isCloseTo(
                            butterworth(warped(300) / warped(frequencies[i]))
                                    + butterworth(warped(frequencies[i]) / warped(3000)),
                            within(0.1));
        }
        assertThat(browser.orElseThrow().complaints()).isEmpty();
    }

    /** S. Butterworth, Experimental Wireless, 1930: |H| squared is 1 / (1 + x to the power of 2n); here n = 4. */
    private static double butterworth(double x) {
        return -10 * Math.log10(1 + Math.pow(x, 8));
    }

    /** Frequency as the bilinear transform bends it at 16,000 samples a second. */
    private static double warped(double hz) {
        return Math.tan(Math.PI * hz / 16_000);
    }

    @Test
    void whiteNoiseComesOutAsMeasuredBefore() throws Exception {
        // Against 1 kHz, decibels, tried with the same stages in the same engine on a shorter piece of noise: so 2.5
        // dB.
        // At 3000 Hz, the corner, the formula above gives -3.0.
        double[][] expected = {
            {125, -18.6},
            {187.5, -16.0},
            {250, -7.6},
            {312.5, -1.3},
            {500, 1.5},
            {2000, -0.2},
            {3000, -3.0},
            {3500, -7.3},
            {4000, -12.2},
            {5000, -21.0},
            {6000, -23.4}
        };
        JsonNode heard = value(
                POWER + "const y = await m.through(m.transmitter, m.whiteNoise(7, 120000));"
                        + " const one = power(y, 1000); return [125, 187.5, 250, 312.5, 500, 2000, 3000, 3500, 4000, 5000, 6000].map((hz) => power(y, hz) - one);");
        for (int i = 0; i < expected.length; i++) {
            assertThat(heard.get(i).asDouble()).as(expected[i][0] + " Hz").isCloseTo(expected[i][1], within(2.5));
        }
    }

    @Test
    void theNoiseIsPinkAndTheSameForItsSeed() throws Exception {
        JsonNode heard = value(POWER
                + "const n = m.pinkNoise(7, 60000); const octaves = [375, 750, 1500, 3000].map((hz) => { let sum = 0, many = 0;"
                + " for (let f = hz / Math.SQRT2; f < hz * Math.SQRT2; f += 31.25) { sum += Math.pow(10, power(n, f) / 10); many++; }"
                + " return 10 * Math.log10(sum / many); });"
                + VOICE
                + " const a = await m.throughRadio(voice, {voice_over_noise_db: 10, seed: 7});"
                + " const b = await m.throughRadio(voice, {voice_over_noise_db: 10, seed: 7});"
                + " const c = await m.throughRadio(voice, {voice_over_noise_db: 10, seed: 8});"
                + " return {octaves, same: a.samples.every((each, i) => each === b.samples[i]),"
                + " other: c.samples.every((each, i) => each === a.samples[i]), head: [...m.pinkNoise(7, 3)]};");
        assertThat(heard.get("same").asBoolean()).isTrue();
        assertThat(heard.get("other").asBoolean()).isFalse();
        // Pink: three decibels less power in each hertz an octave higher.
        for (int i = 1; i < 4; i++) {
            assertThat(heard.get("octaves").get(i - 1).asDouble()
                            - heard.get("octaves").get(i).asDouble())
                    .as("octave " + i)
                    .isCloseTo(3.01, within(1.0));
        }
    }

    @Test
    void theVoiceIsAsFarOverTheNoiseAsTheLessonSays() throws Exception {
        for (int db : new int[] {20, 10, 5}) {
            JsonNode heard = value(
                    VOICE + "const r = await m.throughRadio(voice, {voice_over_noise_db: " + db + ", seed: 3});"
                            // From the first to the last sound of the voice, and of the hiss where nobody speaks.
                            + " const rms = (x, from, to) => { let s = 0; for (let i = from; i < to; i++) { s += x[i] * x[i]; } return Math.sqrt(s / (to - from)); };"
                            + " const lead = 0.15 * 16000; return {voice: rms(r.voice, lead + 4800, lead + 48000), noise: rms(r.noise, 0, r.noise.length),"
                            + " hiss: rms(r.samples, 200, lead - 200), all: rms(r.samples, lead + 4800, lead + 48000), peak: Math.max(...r.samples.map(Math.abs)), seconds: r.samples.length / 16000};");
            assertThat(20
                            * Math.log10(heard.get("voice").asDouble()
                                    / heard.get("noise").asDouble()))
                    .isCloseTo(db, within(1.0));
            // As it is played: the voice with the hiss under it, against the hiss before it.
            double both = heard.get("all").asDouble() / heard.get("hiss").asDouble();
            assertThat(10 * Math.log10(both * both - 1)).isCloseTo(db, within(1.5));
            assertThat(heard.get("peak").asDouble()).isCloseTo(0.7, within(0.001));
            // The carrier before, the squelch tail after.
            assertThat(heard.get("seconds").asDouble()).isCloseTo(3 + 0.15 + 0.1 + 0.18, within(0.001));
        }
    }
}
