// Canvases at the density of the screen. Sizes come from the browser when they change, and are never asked for in a frame.

export function surface(canvas, changed) {
  const made = {
    canvas, pen: canvas.getContext('2d', { alpha: false }), width: 0, height: 0, dense: 1,
    // Whether there is anything to draw on; the canvas has its size then.
    ready() {
      this.dense = window.devicePixelRatio || 1;
      size(canvas, this.width, this.height, this.dense);
      return this.width > 0 && this.height > 0;
    },
  };
  new ResizeObserver((entries) => {
    const box = entries[entries.length - 1].contentRect;
    made.width = Math.round(box.width);
    made.height = Math.round(box.height);
    changed();
  }).observe(canvas);
  return made;
}

function size(canvas, width, height, dense) {
  const w = Math.round(width * dense), h = Math.round(height * dense);
  if (canvas.width !== w || canvas.height !== h) { canvas.width = w; canvas.height = h; }
}

// A canvas that is not on the page, to be copied from; the one before is used again.
export function layer(before, width, height, dense) {
  const canvas = before || document.createElement('canvas');
  size(canvas, width, height, dense);
  const pen = canvas.getContext('2d', { alpha: false });
  pen.setTransform(dense, 0, 0, dense, 0, 0);
  return { canvas, pen };
}
