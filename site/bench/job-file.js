// @ts-check
/* A job record as a file: saved to the device, and read back with distrust. Nothing is sent anywhere. */
(() => {
  "use strict";
  const { make } = baybookDraw;
  /** No record of ours is larger. */
  const LARGEST = 8 * 1024 * 1024;

  /** @param {Job} job */
  function name(job) {
    return `job-${job.id.replace(/[^A-Za-z0-9~.-]+/g, "-")}.json`;
  }

  /** @param {Job} job */
  function save(job) {
    const text = `${JSON.stringify(job, null, 1)}\n`;
    const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    const link = make("a", { href: address, download: name(job), hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }

  /**
   * A field that takes a file.
   * @param {(read: { ok: true, job: Job } | { ok: false, because: string }) => void} done
   */
  function choose(done) {
    const field = make("input", { type: "file", accept: ".json,application/json" });
    field.addEventListener("change", async () => {
      const file = field.files?.[0];
      field.value = "";
      if (!file) {
        return;
      }
      if (file.size > LARGEST) {
        done({ ok: false, because: "it is larger than any job record" });
        return;
      }
      try {
        done(baybookRecord.parse(await file.text()));
      } catch {
        done({ ok: false, because: "the file cannot be read" });
      }
    });
    return field;
  }

  globalThis.baybookJobFile = { name, save, choose };
})();
