;;; emacs --batch -Q -l eglot.el; BAND is the file, SERVER a JSON list: the command of the server.  -*- lexical-binding: t -*-
(require 'package)
;; Where Debian keeps eglot; without a user's set-up nobody looks there.
(add-to-list 'package-directory-list "/usr/share/emacs/site-lisp/elpa")
(package-initialize)
(require 'eglot)
(require 'flymake)
(require 'json)

(define-derived-mode knotwright-mode prog-mode "Knotwright")
(add-to-list 'auto-mode-alist '("\\.knot\\'" . knotwright-mode))
(add-to-list 'eglot-server-programs
             (cons 'knotwright-mode (append (json-read-from-string (getenv "SERVER")) nil)))
(defconst patience 120
  "Seconds that an answer may take: far longer than ever seen, as the machine may be busy with something else.")
(setq jsonrpc-default-request-timeout patience eglot-sync-connect patience eglot-connect-timeout patience eglot-send-changes-idle-time 0.05
      flymake-no-changes-timeout 0.1)

(defun need (holds what)
  (unless holds
    (princ (format "missing: %s\n" what))
    (kill-emacs 1))
  holds)

(defun wait-for (what found)
  (let ((end (+ (float-time) patience)) result)
    (while (and (not (setq result (funcall found))) (< (float-time) end))
      (accept-process-output nil 0.05))
    (need result what)))

(defun errors ()
  (seq-filter (lambda (one) (eq (flymake-diagnostic-type one) 'eglot-error)) (flymake-diagnostics)))

(let ((buffer (find-file-noselect (getenv "BAND"))))
  (switch-to-buffer buffer)             ; eglot answers for a buffer that is shown
  (knotwright-mode)
  (apply #'eglot--connect (eglot--guess-contact))
  (eglot--maybe-activate-editing-mode)
  (wait-for "the server" #'eglot-managed-p)
  (flymake-mode 1)
  (flymake-start)
  (let ((finding (car (wait-for "findings" #'errors))))
    (need (= 9 (line-number-at-pos (flymake-diagnostic-beg finding))) "the promise at its line")
    (need (string-match-p "kelp" (flymake-diagnostic-text finding)) "the promise in words"))
  (goto-char (point-min))
  (search-forward "(kelp")
  (let (words)
    (eglot-hover-eldoc-function (lambda (text &rest _) (setq words text)))
    (wait-for "the hover" (lambda () words))
    (need (and (string-match-p "kelp" words) (not (string-match-p "base64" words))) "words in the hover"))
  (eglot-format-buffer)
  (goto-char (point-min))
  (need (not (search-forward "take  left" nil t)) "one space between words")
  (goto-char (point-max))
  (search-backward "(kelp)")
  (delete-region (point) (+ 7 (point)))
  (insert ": forward 3 -- \U0001F9F5")
  (delete-region (point) (line-end-position))
  ;; The timer that tells of edits is an idle one, and a batch is never idle.
  (eglot--signal-textDocument/didChange)
  (wait-for "no more errors" (lambda () (flymake-start) (null (errors))))
  (set-buffer-modified-p nil)
  (eglot-shutdown (eglot-current-server))
  (princ "RESULT ok\n"))
