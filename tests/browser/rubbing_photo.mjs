// A photo of a rubbing, drawn by the browser itself: the printed square on paper that lies aslant under the camera, and
// a pencil's line of known size on the strip. What it measures is known in closed form, from nothing of the program.

/** The window that is drawn [mm]: a rectangle with round corners, in the middle of the line. */
export const drawn = { width: 40, height: 24, radius: 6, line: 0.5 };

/** Its area [cm2]. */
export const drawnArea = (drawn.width * drawn.height - (4 - Math.PI) * drawn.radius ** 2) / 100;

/** JPEG bytes. `turn` [deg] turns the paper, `squeeze` shortens it one way as a slanted camera from afar does. */
export async function rubbingPhoto(browser, { width = 1600, height = 1200, perMm = 7.6, turn = 4, squeeze = 0.94, quality = 0.8 } = {}) {
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    const base64 = await page.evaluate(
      ({ width, height, perMm, turn, squeeze, quality, drawn }) => {
        const canvas = globalThis.document.createElement('canvas');
        Object.assign(canvas, { width, height });
        const ink = canvas.getContext('2d');
        ink.fillStyle = '#8b8174'; // the bench
        ink.fillRect(0, 0, width, height);
        ink.translate(width / 2, height / 2);
        ink.rotate((turn * Math.PI) / 180);
        ink.scale(perMm, perMm * squeeze);
        ink.fillStyle = '#f2efe6'; // the sheet
        ink.fillRect(-95, -140, 190, 280);
        ink.fillStyle = '#1c1b1a'; // the ring, 120 mm inside and 5 mm thick
        ink.fillRect(-65, -65, 130, 130);
        ink.fillStyle = '#f2efe6';
        ink.fillRect(-60, -60, 120, 120);
        ink.fillStyle = '#1c1b1a'; // which way the roof is
        ink.beginPath();
        for (const [x, y] of [[-73, -61], [-67.5, -50], [-78.5, -50]]) ink.lineTo(x, y);
        ink.fill();
        ink.fillStyle = '#f8f6f0'; // the strip
        ink.fillRect(-36, -24, 72, 50);
        ink.strokeStyle = '#4d4c4a';
        ink.lineWidth = drawn.line;
        ink.beginPath();
        ink.roundRect(-drawn.width / 2, -drawn.height / 2, drawn.width, drawn.height, drawn.radius);
        ink.stroke();
        const shade = ink.createLinearGradient(-95, -70, 95, 70); // a lamp from one side
        shade.addColorStop(0, 'rgba(0,0,0,0)');
        shade.addColorStop(1, 'rgba(0,0,0,0.22)');
        ink.fillStyle = shade;
        ink.fillRect(-200, -200, 400, 400);
        return canvas.toDataURL('image/jpeg', quality).split(',')[1];
      },
      { width, height, perMm, turn, squeeze, quality, drawn },
    );
    return Buffer.from(base64, 'base64');
  } finally {
    await context.close();
  }
}
