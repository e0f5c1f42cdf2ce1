// Joins imports.h to the page's `host` and the worker's `files` objects; moves bytes and text only.
mergeInto(LibraryManager.library, {
  host_pick_file: function () { Module.host.pickFile(); },
  host_pick_folder: function () { Module.host.pickFolder(); },
  host_shelf_put: function (key, name, file) {
    Module.host.shelfPut(UTF8ToString(key), UTF8ToString(name), file);
  },
  host_shelf_drop: function (key) { Module.host.shelf.drop(UTF8ToString(key)); },
  host_shelf_clear: function () { Module.host.shelf.clear(); },
  host_use_file: function (name, file) { Module.host.useFile(UTF8ToString(name), file); },
  host_start: function (request) { return Module.host.start(UTF8ToString(request)); },
  host_cancel: function (work) { Module.host.cancel(work); },
  host_keep_bytes: function (name, bytes, length) {
    return Module.host.keepBytes(UTF8ToString(name), HEAPU8.slice(bytes, bytes + length));
  },
  host_drop_file: function (file) { Module.host.dropFile(file); },
  host_save_delivery: function (work, name) { Module.host.saveDelivery(work, UTF8ToString(name)); },
  host_writes_folders: function () { return Module.host.outbox.folders ? 1 : 0; },
  host_choose_folder: function () { Module.host.outbox.choose(); },
  host_leave_folder: function () { Module.host.outbox.leave(); },
  host_save_text: function (name, mime, utf8, length) {
    Module.host.saveText(UTF8ToString(name), UTF8ToString(mime), HEAPU8.slice(utf8, utf8 + length));
  },
  host_copy_text: function (utf8, length) { Module.host.copyText(UTF8ToString(utf8, length)); },
  host_client_address: function () { return allocateUTF8(Module.host.clientAddress); },
  host_speak: function (language) { Module.host.speak(UTF8ToString(language)); },
  host_show_licences: function () { Module.host.showLicences(); },
  host_describe: function (state, news) {
    Module.host.describe(UTF8ToString(state), UTF8ToString(news));
  },
  host_remember: function (key, value) { Module.host.remember(UTF8ToString(key), UTF8ToString(value)); },
  host_recall: function (key) { return allocateUTF8(Module.host.recall(UTF8ToString(key))); },
  host_set_cursor: function (name) { Module.host.setCursor(UTF8ToString(name)); },
  host_request_frame: function () { Module.host.requestFrame(); },

  // The panel's library asks for the drawing state before each frame, to put it back afterwards. Nothing
  // else draws here, and each question makes the page wait for the graphics process (0.4 s in the first
  // frame with software graphics): such questions are answered with the state a context begins with.
  glGetIntegerv__deps: ['$emscriptenWebGLGet'],
  glGetIntegerv: function (name, into) {
    var begins = {
      0x84E0: [0x84C0],  // ACTIVE_TEXTURE: TEXTURE0
      0x8B8D: [0], 0x8069: [0], 0x8919: [0], 0x8894: [0], 0x8895: [0], 0x85B5: [0],  // nothing bound
      0x0BA2: [0, 0, 0, 0], 0x0C10: [0, 0, 0, 0],  // VIEWPORT, SCISSOR_BOX: set before each drawing
      0x80C9: [1], 0x80CB: [1], 0x80C8: [0], 0x80CA: [0],  // BLEND: ONE, ZERO
      0x8009: [0x8006], 0x883D: [0x8006],  // BLEND_EQUATION: FUNC_ADD
    }[name];
    if (begins) HEAP32.set(begins, into >> 2);
    else emscriptenWebGLGet(name, into, 0);
  },

  blob_read: function (file, offset, into, length) {
    return Module.files.read(file, offset, HEAPU8.subarray(into, into + length));
  },
  blob_is_there: function (file) { return Module.files.isThere(file) ? 1 : 0; },
  sink_write: function (offset, bytes, length) {
    return Module.files.write(offset, HEAPU8.subarray(bytes, bytes + length));
  },
  sink_finish: function () { return Module.files.finish(); },
  tell_progress: function (share) { Module.files.progress(share); },
  answer_buffer: function (name, bytes, length) {
    Module.files.buffer(UTF8ToString(name), HEAPU8.slice(bytes, bytes + length));
  },
  answer_json: function (json) { Module.files.answer(UTF8ToString(json)); },
  answer_failed: function (sentence) { Module.files.fail(UTF8ToString(sentence)); },
});
