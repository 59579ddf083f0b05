;;; emacs --batch -Q -l emacs.el; INKS says what every token is, PLUGIN is the folder of the mode.  -*- lexical-binding: t -*-
(require 'json)
(add-to-list 'load-path (getenv "PLUGIN"))
(require 'knotwright-mode)

(defconst faces
  '((Comment font-lock-comment-face font-lock-comment-delimiter-face) (Text font-lock-string-face)
    (Number font-lock-constant-face) (Color font-lock-constant-face) (Statement font-lock-keyword-face)
    (Detail font-lock-keyword-face font-lock-builtin-face) (Kind font-lock-type-face)
    (Place font-lock-builtin-face) (Unit font-lock-type-face) (Operator nil) (Mark font-lock-builtin-face)
    (Motif font-lock-function-name-face) (Thread font-lock-variable-name-face) (Parameter font-lock-variable-name-face)
    (Counter font-lock-variable-name-face) (Label font-lock-variable-name-face)))

(defvar count 0)
(defvar wrong 0)

(defun look (sample token)
  (let-alist token
    (setq count (1+ count))
    (goto-char (point-min))
    (forward-line .line)
    (let ((start (+ (point) .column)))
      (dolist (at (list start (+ start -1 (length .text))))
        (let ((face (get-text-property at 'face)))
          (unless (memq face (cdr (assq (intern .ink) faces)))
            (setq wrong (1+ wrong))
            (princ (format "%s:%d: %s is %s, but %s\n" sample (1+ .line) .text .ink face))))))))

(let ((json-array-type 'list))
  (dolist (sample (json-read-file (getenv "INKS")))
    (let-alist sample
      (with-temp-buffer
        (insert (replace-regexp-in-string "\r\n?" "\n" .text))
        (setq buffer-file-name "sample.knot")
        (set-auto-mode)
        (unless (eq major-mode 'knotwright-mode) (error "Not a pattern: %s" major-mode))
        (font-lock-ensure)
        (dolist (token .tokens) (look .name token))
        (set-buffer-modified-p nil)
        (setq buffer-file-name nil)))))
(princ (format "%d tokens, %d colored wrongly\n" count wrong))
(kill-emacs (if (or (zerop count) (> wrong 0)) 1 0))
