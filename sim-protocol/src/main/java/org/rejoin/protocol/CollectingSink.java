package org.rejoin.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Keeps what a decoder finds as a list, for callers that do not mind an object for each sample. */
final class CollectingSink implements StateSink {

    private final List<Decoded> found = new ArrayList<>(2);

    @Override
    public void sample(StateView sample) {
        Optional<SourceTime> source = Double.isNaN(sample.sourceS())
                ? Optional.empty()
                : Optional.of(new SourceTime(sample.sourceS(), sample.sourceWrapS()));
        found.add(new Decoded.Sample(sample.snapshot(sample.receivedS()), source, sample.aircraft(), sample.marking()));
    }

    @Override
    public void other(Decoded.Other other) {
        found.add(other);
    }

    List<Decoded> found() {
        return found;
    }
}
