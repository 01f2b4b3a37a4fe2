package org.rejoin.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Keeps what a decoder finds as a list, for callers that do not mind an object for each sample. */
final class CollectingSink implements StateSink {

    /** Empty until something is found: most of the time that passes completes nothing. */
    private List<Decoded> found = List.of();

    @Override
    public void sample(StateView sample) {
        Optional<SourceTime> source = Double.isNaN(sample.sourceS())
                ? Optional.empty()
                : Optional.of(new SourceTime(sample.sourceS(), sample.sourceWrapS()));
        add(new Decoded.Sample(
                sample.snapshot(sample.receivedS()), source, sample.aircraft(), sample.marking(), sample.exercise()));
    }

    @Override
    public void other(Decoded.Other other) {
        add(other);
    }

    private void add(Decoded one) {
        if (found.isEmpty()) {
            found = new ArrayList<>(2);
        }
        found.add(one);
    }

    List<Decoded> found() {
        return found;
    }
}
