// What the page and the worker do for the C++ side; written in imports.js. Text is UTF-8 and ends
// with a 0; offsets and lengths of files are doubles, since JavaScript has no 64-bit integer here.
#pragma once

#include <cstddef>
#include <cstdint>

extern "C" {

// On the page: see shell/host.h. host_use_file names a file of the request that host_start sends.
void host_pick_file();
void host_pick_folder();
void host_shelf_put(const char* key, const char* name, int file);
void host_shelf_drop(const char* key);
void host_shelf_clear();
void host_use_file(const char* name, int file);
int host_start(const char* request);
void host_cancel(int work);
int host_keep_bytes(const char* name, const uint8_t* bytes, size_t length);
void host_drop_file(int file);
void host_save_delivery(int work, const char* file_name);
int host_writes_folders();
void host_choose_folder();
void host_leave_folder();
void host_speak(const char* language);
void host_show_licences();
void host_save_text(const char* name, const char* mime, const char* utf8, size_t length);
void host_copy_text(const char* utf8, size_t length);
// Made with malloc; the caller frees it.
char* host_client_address();
void host_describe(const char* state, const char* news);
void host_remember(const char* key, const char* value);
// Made with malloc; the caller frees it.
char* host_recall(const char* key);
void host_set_cursor(const char* css_name);
void host_request_frame();

// In a worker: reads from a file into memory, returns the bytes read or -1. Fewer than `length`,
// but not 0, are those that came before they were asked for.
int blob_read(int file, double offset, uint8_t* into, size_t length);
// Whether the file is still what it was when it was chosen: browsers look at each reading, but a
// stream begun before goes on over what is written meanwhile.
int blob_is_there(int file);
// Writes into the delivery; returns 0, or -1 when the browser has no room.
int sink_write(double offset, const uint8_t* bytes, size_t length);
// Makes what was written one file and returns its number for blob_read.
int sink_finish();
void tell_progress(double share);
void answer_buffer(const char* name, const uint8_t* bytes, size_t length);
void answer_json(const char* json);
void answer_failed(const char* sentence);

}  // extern "C"
